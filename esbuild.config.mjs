// Builds dist/: the commands, and apart from them the bench screen, so that a plain command never loads it.
import { chmod, readFile, rm } from 'node:fs/promises';
import { build } from 'esbuild';

/** Ink imports its optional developer tools without need; an empty stand-in keeps them out of the bundle. */
const withoutInkDevtools = {
  name: 'without-ink-devtools',
  setup(bundle) {
    bundle.onResolve({ filter: /^react-devtools-core$/ }, (args) => ({
      path: args.path,
      namespace: 'empty',
    }));
    bundle.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({
      contents: 'export default { initialize() {}, connectToDevTools() {} };',
    }));
  },
};

/** Yoga, Ink's layout, has its WebAssembly inside as text and would use `fetch` to decode it: a whole HTTP client more. */
const yogaWithoutFetch = {
  name: 'yoga-without-fetch',
  setup(bundle) {
    bundle.onLoad({ filter: /yoga-wasm-base64-esm\.js$/ }, async ({ path }) => ({
      contents: `const fetch = undefined;\n${await readFile(path, 'utf8')}`,
    }));
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

/** `*.computed.ts` exports plain data, computed from data/ alone: computed here once, and not at every start. */
const computedNow = {
  name: 'computed-now',
  setup(bundle) {
    bundle.onLoad({ filter: /\.computed\.ts$/ }, async ({ path }) => {
      const { outputFiles } = await build({
        entryPoints: [path],
        bundle: true,
        write: false,
        format: 'esm',
        platform: 'node',
      });
      const program = Buffer.from(outputFiles[0].contents).toString('base64');
      const values = Object.entries(await import(`data:text/javascript;base64,${program}`));
      return {
        contents: values.map(([name, value]) => `export const ${name} = ${parsed(value)};`).join('\n'),
      };
    });
  },
};

/** The commands load the bench screen, when it is called for, from its own build. */
const screenApart = {
  name: 'screen-apart',
  setup(bundle) {
    bundle.onResolve({ filter: /\/tui\/start\.tsx$/ }, ({ kind }) =>
      kind === 'entry-point' ? undefined : { path: './bench-screen.js', external: true },
    );
  },
};

const shared = {
  outdir: 'dist',
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
    // Ink's own measure of a text's width takes longer to get ready than a frame takes to draw; our views use this one.
    'string-width': 'fast-string-width',
  },
  plugins: [withoutInkDevtools, yogaWithoutFetch, jsonAsText, computedNow, screenApart],
  logLevel: 'warning',
};

await rm('dist', { recursive: true, force: true });
// Two builds, because one would cut what they share into some thirty files, and each costs a start a millisecond or two.
await build({ ...shared, entryPoints: { whichgas: 'src/cli/main.ts' } });
await build({ ...shared, entryPoints: { 'bench-screen': 'src/tui/start.tsx' } });
await chmod('dist/whichgas.js', 0o755);
