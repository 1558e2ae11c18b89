// Builds dist/: the entry, the commands, and apart from them the bench screen, so that a plain command never loads it.
import { chmod, readFile, rm, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
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

/** See graphemes.ts. */
const graphemesWithoutIntl = {
  name: 'graphemes-without-intl',
  setup(bundle) {
    const segmenter = /new Intl\.Segmenter\(.*?\)/;
    bundle.onLoad({ filter: /[\\/](ansi-tokenize|slice-ansi)[\\/].*\.js$/ }, async ({ path }) => {
      const text = await readFile(path, 'utf8');
      if (!segmenter.test(text)) return undefined;
      const own = JSON.stringify(resolve('src/tui/graphemes.ts'));
      return {
        contents: `import { GraphemeSegmenter } from ${own};\n${text.replace(segmenter, 'new GraphemeSegmenter()')}`,
      };
    });
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

/** The entry takes the commands from their own build, with the code compiled for them. */
const commandsApart = {
  name: 'commands-apart',
  setup(bundle) {
    bundle.onResolve({ filter: /^\.\/run\.ts$/ }, ({ importer }) =>
      importer.endsWith('main.ts') ? { path: resolve('src/cli/commands-compiled.ts') } : undefined,
    );
  },
};

/**
 * The commands as one function for compiled.ts, and beside them the code that V8 makes of them when a record is
 * identified. A compiled script has no `import()` of its own.
 */
async function buildCommands() {
  const { outputFiles } = await build({
    ...shared,
    entryPoints: { commands: 'src/cli/run.ts' },
    write: false,
    splitting: false,
    format: 'cjs',
    banner: { js: '(function (exports, require, module, importBeside) {' },
    footer: { js: '})' },
  });
  const commands = resolve('dist/commands.cjs');
  await writeFile(commands, outputFiles[0].text.replaceAll('import("./', 'importBeside("./'));
  const { compiledPath, loadCompiled } = await imported('src/cli/compiled.ts');
  const { exports, compiledNow } = loadCompiled(commands);
  const { write } = process.stdout;
  process.stdout.write = () => true;
  const ended = await exports.run(['identify', resolve('data/examples/harbour-lane-bench-2.json')]);
  process.stdout.write = write;
  if (ended !== 0) throw new Error('The example could not be identified.');
  await writeFile(compiledPath(commands), compiledNow());
}

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
  plugins: [
    withoutInkDevtools,
    yogaWithoutFetch,
    graphemesWithoutIntl,
    jsonAsText,
    computedNow,
    largeOnesApart,
  ],
  logLevel: 'warning',
};

await rm('dist', { recursive: true, force: true });
// Each apart, because one build would cut what they share into some thirty files, and each costs a start a millisecond or two.
await build({ ...shared, entryPoints: { 'bench-screen': 'src/tui/start.tsx' } });
await build({ ...shared, entryPoints: { report: 'src/present/report/write-report.ts' } });
await buildCommands();
// The entry last: it needs the others.
await build({ ...shared, entryPoints: { whichgas: 'src/cli/main.ts' }, plugins: [commandsApart] });
await chmod('dist/whichgas.js', 0o755);
