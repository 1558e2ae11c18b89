/** The import lines of the sources, as plain data. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const sourceRoot = fileURLToPath(new URL('../../src', import.meta.url));

export interface SourceFile {
  /** From src, with forward slashes: `calibrate/curve.ts`. */
  readonly path: string;
  /** First folder: `calibrate`. */
  readonly folder: string;
  readonly text: string;
  readonly imports: readonly Import[];
}

export interface Import {
  /** `node:fs`, `ink`, or the path from src: `record/bench.ts`; what lies outside src begins with `../`. */
  readonly target: string;
  readonly how: 'value' | 'type' | 'on-demand';
}

/** Static imports and re-exports, then `import()`; comments and strings do not hold such lines in these sources. */
const staticImport = /^(?:import|export)\s+(type\s+)?(?:[^'";]*?\sfrom\s+)?'([^']+)'/gm;
const onDemand = /\bimport\(\s*'([^']+)'/g;

function importsOf(text: string, folder: string): Import[] {
  const target = (specifier: string): string =>
    specifier.startsWith('.')
      ? relative(sourceRoot, join(folder, specifier)).split(sep).join('/')
      : specifier;
  return [
    ...[...text.matchAll(staticImport)].map(
      ([, type, specifier]): Import => ({ target: target(specifier!), how: type ? 'type' : 'value' }),
    ),
    ...[...text.matchAll(onDemand)].map(
      ([, specifier]): Import => ({ target: target(specifier!), how: 'on-demand' }),
    ),
  ];
}

function read(path: string): SourceFile {
  const text = readFileSync(path, 'utf8');
  const fromSource = relative(sourceRoot, path).split(sep).join('/');
  return {
    path: fromSource,
    folder: fromSource.split('/')[0]!,
    text,
    imports: importsOf(text, dirname(path)),
  };
}

export const sources: readonly SourceFile[] = readdirSync(sourceRoot, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .sort()
  .map((name) => read(join(sourceRoot, name)));

/** The text without comments. */
export const code = ({ text }: SourceFile): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');

/** Every source that is loaded as soon as the file at `path` is, itself included. */
export function loadedWith(path: string): SourceFile[] {
  const byPath = new Map(sources.map((source) => [source.path, source]));
  const found = new Map<string, SourceFile>();
  const visit = (target: string): void => {
    const source = byPath.get(target);
    if (source === undefined || found.has(target)) return;
    found.set(target, source);
    for (const { target: next, how } of source.imports) if (how === 'value') visit(next);
  };
  visit(path);
  return [...found.values()];
}
