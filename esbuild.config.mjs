// Builds dist/: a split bundle, so that a plain command never loads the bench screen.
import { chmod, rm } from 'node:fs/promises';
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

await rm('dist', { recursive: true, force: true });
await build({
  entryPoints: { whichgas: 'src/cli/main.ts' },
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
  // Its main file is UMD, which finds its parts with a `require` that no bundler can follow.
  alias: { 'jsonc-parser': 'jsonc-parser/lib/esm/main.js' },
  plugins: [withoutInkDevtools],
  logLevel: 'warning',
});
await chmod('dist/whichgas.js', 0o755);
