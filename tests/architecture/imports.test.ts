import { describe, expect, test } from 'vitest';
import { code, loadedWith, type SourceFile, sources } from './imports.ts';

/** Which folders each folder may read: the table of DEVELOPERS.md. */
const mayRead: Readonly<Record<string, readonly string[]>> = {
  angle: [],
  numeric: [],
  lines: [],
  record: ['angle', 'lines'],
  observe: ['angle', 'numeric'],
  calibrate: ['angle', 'numeric', 'lines', 'observe'],
  identify: ['angle', 'numeric', 'lines', 'observe', 'calibrate'],
  words: ['angle', 'numeric', 'lines', 'observe', 'calibrate', 'identify'],
  analysis: ['angle', 'record', 'lines', 'numeric', 'observe', 'calibrate', 'identify', 'words'],
  present: ['angle', 'record', 'lines', 'numeric', 'observe', 'calibrate', 'identify', 'words', 'analysis'],
};
const pureFolders = Object.keys(mayRead);
const pure = sources.filter(({ folder }) => pureFolders.includes(folder));

/** What describes a bench is read by every folder that computes with it, as a type only. */
const isRecordType = (target: string, how: string): boolean => target === 'record/bench.ts' && how === 'type';

const offences = (files: readonly SourceFile[], what: (file: SourceFile) => readonly string[]): string[] =>
  files.flatMap((file) => what(file).map((offence) => `${file.path}: ${offence}`));

describe('the reading of import lines', () => {
  test('finds the sources and what each of them imports', () => {
    expect(sources.length).toBeGreaterThan(100);
    const analyse = sources.find(({ path }) => path === 'analysis/analyse.ts')!;
    expect(analyse.imports).toContainEqual({ target: 'observe/origin.ts', how: 'value' });
    expect(analyse.imports).toContainEqual({ target: 'record/bench.ts', how: 'type' });
    const run = sources.find(({ path }) => path === 'cli/run.ts')!;
    expect(run.imports).toContainEqual({ target: 'tui/start.tsx', how: 'on-demand' });
    const screen = sources.filter(({ imports }) => imports.some(({ target }) => target === 'ink'));
    expect(screen.length).toBeGreaterThan(0);
  });

  test('knows every folder of src', () => {
    const folders = new Set(sources.map(({ folder }) => folder));
    expect([...folders].sort()).toEqual([...pureFolders, 'cli', 'disk', 'tui'].sort());
  });
});

describe('the bench screen', () => {
  const screen = sources.filter(({ folder }) => folder === 'tui');

  test('draws text through one gate only, and writes to the terminal itself in one file only', () => {
    const drawing = /import \{[^}]*\b(?:Text|Static|Transform|Newline)\b[^}]*\} from 'ink'/;
    const writing =
      /\b(?:stdout|stderr|console)\b[\w.?]*\.(?:write|log|error|warn|info)\b|\buseStderr\b|\bwriteSync\(\s*[12]\b/;
    expect(screen.filter((file) => drawing.test(code(file))).map(({ path }) => path)).toEqual([
      'tui/views/lines.tsx',
    ]);
    expect(screen.filter((file) => writing.test(code(file))).map(({ path }) => path)).toEqual([
      'tui/terminal.ts',
    ]);
  });
});

describe('the pure folders', () => {
  test('import no module of the platform and nothing of the screen', () => {
    const forbidden = /^node:|^ink\b|^react\b|^(cli|disk|tui)\//;
    expect(
      offences(pure, ({ imports }) =>
        imports.map(({ target }) => target).filter((target) => forbidden.test(target)),
      ),
    ).toEqual([]);
  });

  test('know no process, clock, console, timer or chance', () => {
    const forbidden =
      /\bprocess\.|\bDate\b|\bperformance\b|\bconsole\b|\bset(?:Timeout|Interval)\b|\bMath\.random\b/g;
    expect(offences(pure, (file) => [...code(file).matchAll(forbidden)].map(([found]) => found))).toEqual([]);
  });

  test('import in the direction of the data only', () => {
    const away = ({ folder, imports }: SourceFile): string[] =>
      imports
        .filter(({ target, how }) => /^[a-z]+\//.test(target) && !isRecordType(target, how))
        .map(({ target }) => target)
        .filter((target) => {
          const other = target.split('/')[0]!;
          return other !== folder && pureFolders.includes(other) && !mayRead[folder]!.includes(other);
        });
    expect(offences(pure, away)).toEqual([]);
  });

  test('keep sentences out of the identification: findings are data, and words tells them', () => {
    const sentence = /(['"`])[^'"`\n]*[A-Za-z,:]+ [a-z]+ [a-z]+[^'"`\n]*\1/g;
    const finders = pure.filter(({ folder }) => folder === 'identify');
    expect(finders.length).toBeGreaterThan(10);
    expect(offences(finders, (file) => [...code(file).matchAll(sentence)].map(([found]) => found))).toEqual(
      [],
    );
  });

  test('read data as imported JSON with its type stated', () => {
    const json = pure.flatMap(({ path, text, imports }) =>
      imports.filter(({ target }) => target.endsWith('.json')).map(({ target }) => ({ path, text, target })),
    );
    expect(json.length).toBeGreaterThan(0);
    for (const { text, target } of json) {
      expect(target).toMatch(/^\.\.\/data\//);
      expect(text).toContain("with { type: 'json' }");
    }
  });
});

describe('what the program loads at once', () => {
  const commands = sources.filter(({ path }) => /^cli\/(commands\/|(plain|table)-commands)/.test(path));
  const external = (path: string): string[] =>
    loadedWith(path).flatMap(({ imports }) =>
      imports.filter(({ how }) => how === 'value').map(({ target }) => target),
    );

  test.each(['cli/main.ts', 'cli/run.ts'])(
    '%s: neither bench screen, nor report, nor computation',
    (path) => {
      const loaded = loadedWith(path).map((source) => source.path);
      expect(loaded.length).toBeGreaterThan(0);
      expect(
        loaded.filter((each) => /^(tui|analysis|identify|calibrate|lines|present\/report)\//.test(each)),
      ).toEqual([]);
      expect(external(path).filter((each) => /^(ink|react|@observablehq|linkedom)/.test(each))).toEqual([]);
    },
  );

  test('no command loads the bench screen or, before it is needed, what a report is made of', () => {
    expect(commands.length).toBeGreaterThan(5);
    for (const { path } of commands) {
      const loaded = loadedWith(path).map((source) => source.path);
      expect(
        offences(
          sources.filter((each) => each.path === path),
          () => loaded.filter((each) => each.startsWith('tui/')),
        ),
      ).toEqual([]);
      expect(external(path).filter((each) => /^(ink|react|@observablehq|linkedom)\b/.test(each))).toEqual([]);
      expect(loaded).not.toContain('present/report/write-report.ts');
      expect(loaded).not.toContain('present/report/build-report.ts');
    }
  });
});
