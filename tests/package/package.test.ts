/** What a person installs: the packed file, made of what the build wrote. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import description from '../../package.json' with { type: 'json' };

const root = resolve('.');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'whichgas-package-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function build(outdir: string, ...options: readonly string[]): Map<string, string> {
  execFileSync(process.execPath, ['esbuild.config.mjs', `--outdir=${outdir}`, ...options]);
  return contentsOf(outdir);
}

const contentsOf = (outdir: string): Map<string, string> =>
  new Map(readdirSync(outdir).map((name) => [name, readFileSync(join(outdir, name), 'utf8')]));

const npm = (cwd: string, ...words: readonly string[]): string =>
  execFileSync('npm', words, { cwd, encoding: 'utf8', shell: process.platform === 'win32' });

describe('the build', () => {
  test('gives the same bytes again, in another folder too', () => {
    const again = build(join(folder, 'again'));
    expect([...again.keys()]).toEqual([...contentsOf('dist').keys()]);
    expect(again).toEqual(contentsOf('dist'));
  });

  test('leaves no path of the machine in its files', () => {
    for (const [name, text] of contentsOf('dist')) expect(text.includes(root), name).toBe(false);
  });
});

describe('the notices of third parties', () => {
  /** Every package that a source map names, in the wording of the notices: `name version`, and its folder. */
  let bundled: Map<string, string>;
  beforeAll(() => {
    const maps = [...build(join(folder, 'mapped'), '--sourcemap')].filter(([name]) => name.endsWith('.map'));
    const sources = maps.flatMap(([, text]) => (JSON.parse(text) as { sources: string[] }).sources);
    const folders = sources.flatMap((source) => {
      const path = /node_modules\/.*/.exec(source)?.[0];
      return path === undefined ? [] : [join(root, /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)![0])];
    });
    bundled = new Map(
      [...new Set(folders)].map((each) => {
        const { name, version } = JSON.parse(readFileSync(join(each, 'package.json'), 'utf8'));
        return [`${name} ${version}`, each];
      }),
    );
  });

  const notices = () =>
    readFileSync('dist/third-party-notices.txt', 'utf8')
      .split(`\n${'-'.repeat(80)}\n\n`)
      .slice(1);

  test('name every package whose code is in the bundle, each once', () => {
    const named = notices().map((notice) => notice.split('\n')[0]!);
    expect(bundled.size).toBeGreaterThan(50);
    expect([...bundled.keys()].filter((name) => !named.includes(name))).toEqual([]);
    expect(named).toHaveLength(new Set(named).size);
  });

  test('hold the text that each package brings, and a copyright and the permission where it brings none', () => {
    const byName = new Map(notices().map((notice) => [notice.split('\n')[0]!, notice]));
    let withoutText = 0;
    for (const [name, packageFolder] of bundled) {
      const texts = readdirSync(packageFolder).filter((each) => /^(licen[cs]e|copying|notice)/i.test(each));
      for (const text of texts) {
        expect(byName.get(name)).toContain(
          readFileSync(join(packageFolder, text), 'utf8').replaceAll('\r\n', '\n').trim(),
        );
      }
      if (texts.length > 0) continue;
      withoutText += 1;
      expect(byName.get(name)).toMatch(/^Copyright \(c\) (?!2026 the whichgas)/m);
      expect(byName.get(name)).toContain('Permission is hereby granted');
    }
    expect(withoutText).toBe(1);
  });
});

describe('the packed file', () => {
  let packed: { readonly filename: string; readonly files: readonly { readonly path: string }[] };
  beforeAll(() => {
    [packed] = JSON.parse(npm(root, 'pack', '--ignore-scripts', '--json', `--pack-destination=${folder}`));
  });

  test('needs nothing else and runs nothing while it is installed', () => {
    const { scripts, ...rest } = description;
    for (const kind of ['dependencies', 'peerDependencies', 'optionalDependencies', 'bundleDependencies'])
      expect(rest).not.toHaveProperty(kind);
    for (const moment of ['preinstall', 'install', 'postinstall']) expect(scripts).not.toHaveProperty(moment);
  });

  test('brings the program, its data, its licence and those of others, and nothing else', () => {
    const names = packed.files.map(({ path }) => path);
    expect(names).toEqual(
      expect.arrayContaining(['dist/whichgas.js', 'dist/third-party-notices.txt', 'LICENSE', 'README.md']),
    );
    expect(names.filter((name) => !/^(dist|data)\/|^(LICENSE|README\.md|package\.json)$/.test(name))).toEqual(
      [],
    );
    expect(names.filter((name) => /\.(ts|tsx|map)$|node_modules|\.compiled$/.test(name))).toEqual([]);
  });

  test('is installed without a network, alone, and starts', () => {
    const place = join(folder, 'installed');
    mkdirSync(place);
    writeFileSync(join(place, 'package.json'), '{"private":true}');
    npm(place, 'install', '--offline', '--no-audit', '--no-fund', join(folder, packed.filename));
    const modules = join(place, 'node_modules');
    expect(readdirSync(modules).filter((name) => !name.startsWith('.'))).toEqual(['whichgas']);
    // Away from this tree, where no package of ours can be found by chance.
    const record = join(place, 'bench.json');
    cpSync('data/examples/harbour-lane-bench-2.json', record);
    const whichgas = (...words: readonly string[]) =>
      npm(place, 'exec', '--offline', '--', 'whichgas', ...words);
    expect(whichgas('--version').trim()).toBe(description.version);
    expect(whichgas('identify', record)).toContain('neon');
  });
});
