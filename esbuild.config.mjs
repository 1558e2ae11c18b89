// Builds dist/: the commands, and apart from them the bench screen and the report, so that no other command loads those.
import { chmod, readFile, rm, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { thirdPartyNotices } from './third-party-notices.mjs';

/**
 * Ink and its helpers without what a first frame need not wait for. Each entry: the files, and what becomes of their text.
 */
const lighterInk = {
  name: 'lighter-ink',
  setup(bundle) {
    const rewrite = (filter, rewritten) =>
      bundle.onLoad({ filter }, async ({ path }) => {
        const text = await readFile(path, 'utf8');
        const contents = rewritten(text);
        if (contents === text) throw new Error(`${path} is not what it was: look at it again.`);
        return { contents };
      });
    // Developer tools, and a WebSocket with them.
    rewrite(/[\\/]ink[\\/]build[\\/]devtools\.js$/, () => '');
    // Yoga, the layout, has its WebAssembly inside as text and would use `fetch` to decode it: a whole HTTP client more.
    rewrite(/yoga-wasm-base64-esm\.js$/, (text) => `const fetch = undefined;\n${text}`);
    // Each character of a frame is compared with its neighbour by five sets, also where both look the same, as most do.
    rewrite(/[\\/]ansi-tokenize[\\/]build[\\/]diff\.js$/, (text) =>
      text.replace(
        'function diffAnsiCodes(from, to) {',
        '$& if (from.length === to.length && from.every(({ code }, at) => code === to[at].code)) return [];',
      ),
    );
    // See graphemes.ts.
    const own = JSON.stringify(resolve('src/tui/graphemes.ts'));
    rewrite(/[\\/](ansi-tokenize[\\/]build[\\/]tokenize|slice-ansi[\\/]tokenize-ansi)\.js$/, (text) =>
      text.replace(
        /^(.*)new Intl\.Segmenter\(.*\)/m,
        `import { GraphemeSegmenter } from ${own};\n$1new GraphemeSegmenter()`,
      ),
    );
  },
};

/** A JSON text is read several times faster than the same data as program text. */
const parsed = (value) => `JSON.parse(${JSON.stringify(JSON.stringify(value))})`;

/** Only for data of our own: a package that calls `require` for its JSON expects the value itself and not a module. */
const jsonAsText = {
  name: 'json-as-text',
  setup(bundle) {
    bundle.onLoad({ filter: /\.json$/ }, async ({ path }) => {
      if (/[\\/]node_modules[\\/]/.test(path)) return undefined;
      return { contents: `export default ${parsed(JSON.parse(await readFile(path, 'utf8')))};` };
    });
  },
};

/** What a TypeScript file exports. */
async function imported(path) {
  const { outputFiles } = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
  });
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`);
}

/** `*.computed.ts` exports plain data, computed from data/ alone: computed here once, and not at every start. */
const computedNow = {
  name: 'computed-now',
  setup(bundle) {
    bundle.onLoad({ filter: /\.computed\.ts$/ }, async ({ path }) => {
      const values = Object.entries(await imported(path));
      return {
        contents: values.map(([name, value]) => `export const ${name} = ${parsed(value)};`).join('\n'),
      };
    });
  },
};

/** The commands load the bench screen and the report, when they are called for, from builds of their own. */
const largeOnesApart = {
  name: 'large-ones-apart',
  setup(bundle) {
    const apart = (filter, path) =>
      bundle.onResolve({ filter }, ({ kind }) =>
        kind === 'dynamic-import' ? { path, external: true } : undefined,
      );
    apart(/\/tui\/start\.tsx$/, './bench-screen.js');
    apart(/\/report\/write-report\.ts$/, './report.js');
  },
};

const {
  values: { outdir, sourcemap },
} = parseArgs({
  options: { outdir: { type: 'string', default: 'dist' }, sourcemap: { type: 'boolean', default: false } },
});

const shared = {
  outdir,
  sourcemap,
  metafile: true,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // jsonc-parser's CommonJS entry asks for its parts in a way that no bundler can follow.
  mainFields: ['module', 'main'],
  minify: true,
  // React's development build is three times slower and keeps a record of every render.
  define: { 'process.env.NODE_ENV': '"production"' },
  // signal-exit, inside Ink, is CommonJS and needs a `require`.
  banner: {
    js: "#!/usr/bin/env node\nimport { createRequire as __createRequire } from 'node:module';\nconst require = __createRequire(import.meta.url);",
  },
  alias: {
    // Its main file is UMD, which finds its parts with a `require` that no bundler can follow.
    'jsonc-parser': 'jsonc-parser/lib/esm/main.js',
    // Its main file is one piece with other packages inside; of its sources only what is called is taken.
    'ml-matrix': resolve('node_modules/ml-matrix/src/index.js'),
    // Ink's own measure of a text's width takes longer to get ready than a frame takes to draw; our views use this one.
    'string-width': 'fast-string-width',
  },
  plugins: [lighterInk, jsonAsText, computedNow, largeOnesApart],
  logLevel: 'warning',
};

await rm(outdir, { recursive: true, force: true });
// Each apart, because one build would cut what they share into some thirty files, and each costs a start a millisecond or two.
const builds = [
  await build({ ...shared, entryPoints: { whichgas: 'src/cli/main.ts' } }),
  await build({ ...shared, entryPoints: { 'bench-screen': 'src/tui/start.tsx' } }),
  await build({ ...shared, entryPoints: { report: 'src/present/report/write-report.ts' } }),
];
await chmod(join(outdir, 'whichgas.js'), 0o755);
const notices = await thirdPartyNotices(builds.map(({ metafile }) => metafile));
await writeFile(join(outdir, 'third-party-notices.txt'), notices);
