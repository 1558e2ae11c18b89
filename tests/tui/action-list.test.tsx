import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import { actionsHere, BENCH_ACTIONS, searchActions } from '../../src/tui/action-list.ts';
import { actionFor, actionForText } from '../../src/tui/commands.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { KEY_READER_START, type KeyEvent, readKeys } from '../../src/tui/keys.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, down, enter } = KEYS;
const said = (bench: ReturnType<typeof openBench>) => linearSentences(bench.state(), false).join('\n');

function benchAt(stage: number, form: BenchForm = FILLED) {
  const bench = openBench(form);
  bench.type(...Array<string>(stage - 1).fill(tab));
  return bench;
}

describe('letters', () => {
  it.each(['sodium', 'helium', 'quit', 'undo', 'x', 'd', 'c230 27'])(
    '%s typed at any stage is text and does nothing else',
    (word) => {
      for (const stage of [1, 2, 3]) {
        const bench = benchAt(stage);
        const { history } = bench.state();
        bench.type(word);
        expect(bench.state().entry.text).toBe(word);
        expect(bench.state().overlay).toBeNull();
        bench.type(enter);
        expect(bench.state().history.record).toBe(history.record);
        expect(bench.hasQuit()).toBe(false);
      }
    },
  );

  it('that spell a gas are told where it belongs', () => {
    const tube = benchAt(3);
    expect(tube.type('sodium\r').entry.refusal).toBe(
      '"sodium": your answer is written on stage 4 (/your answer).',
    );
    const lamp = benchAt(2);
    expect(lamp.type('helium\r').entry.refusal).toMatch(/the lamp is chosen with \/known lamp/);
    expect(lamp.type('\x15', 'hello\r').entry.refusal).toMatch(/is no reading; \/ opens the list/);
  });

  it('behind a reading that are a colour misspelt are offered as that colour', () => {
    const bench = benchAt(3);
    expect(bench.type('229 44 voilet\r').entry.refusal).toMatch(/did you mean violet\?/);
    bench.type(tab, enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)).toEqual({
      readings: ['229 44'],
      color: 'violet',
    });
    expect(bench.type('229 45 yelow strnog\r').entry.suggestion).toBe('229 45 yellow strong');
    bench.type(tab, enter);
    expect(bench.type('229 46 red fient\r').entry.suggestion).toBe('229 46 red faint');
  });
});

describe('degrees and minutes typed without a gap', () => {
  it('are taken apart where they can be nothing else, and shown as they are understood', () => {
    const bench = benchAt(3);
    bench.type('22844 red');
    expect(said(bench)).toContain('228°44');
    bench.type(enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)).toEqual({
      readings: ['228 44'],
      color: 'red',
    });
    bench.type(KEYS.quickCheck, '22940', enter);
    expect(bench.state().notice?.text).toMatch(/^229 40: 54\d/);
  });

  it('are asked about where a digit is missing, and refused where they are no angle', () => {
    const bench = benchAt(3);
    expect(bench.type('2844 red\r').entry.suggestion).toBe("28°44' red");
    bench.type('\x15');
    expect(bench.type('22899\r').entry.suggestion).toBeNull();
    expect(bench.state().entry.refusal).toMatch(/full circle|360/);
  });

  it('are numbers on a scale and on a circle in decimals', () => {
    for (const instrument of [
      { method: 'scale', leastCount: 0.1 },
      { method: 'central', leastCount: '0.01°' },
    ] as const) {
      const bench = benchAt(3, { ...BLANK_FORM, instrument });
      bench.type('22844\r');
      expect(JSON.stringify(bench.state().history.record.unknown)).not.toContain('228 44');
    }
  });
});

describe('a reading typed on a setting that takes none', () => {
  it('is the central image', () => {
    const bench = openBench(BLANK_FORM);
    bench.type('181 04\r');
    expect(bench.state().history.record.central).toEqual(['181 04']);
    const second = openBench(BLANK_FORM);
    second.type(down, "181°04'\r");
    expect(second.state().history.record.central).toEqual(["181°04'"]);
    expect(second.state().history.record.instrument.leastCount).toBe("1'");
    second.type('\x1b[H', down, '30"\r');
    expect(second.state().history.record.instrument.leastCount).toBe('30"');
  });
});

describe('the list of actions', () => {
  it('opens by / while nothing is typed, and holds every action with its key and its line of help', () => {
    const bench = benchAt(3);
    bench.type('/');
    for (const { label, help, key = '' } of actionsHere(bench.state()))
      expect(said(bench)).toContain(`${label} ${key === '' ? '' : `${key} `}${help}`);
    bench.type(KEYS.escape, '229 4/');
    expect(bench.state().entry.text).toBe('229 4/');
  });

  it.each(BENCH_ACTIONS.map((action) => [action.label, action] as const))(
    '%s is found by its name, a slip in it, and the words beside it',
    (label, { id, words = '' }) => {
      const found = (query: string): readonly string[] =>
        searchActions(benchAt(3).state(), query)
          .slice(0, 3)
          .map((each) => each.id);
      expect(found(label)[0]).toBe(id);
      expect(found(label.slice(0, 5))).toContain(id);
      // What several actions have in common finds them all, in whatever order.
      const own = words.split(' ').filter((word) => sharedBy(word) === 1);
      for (const word of own) expect(found(word), word).toContain(id);
    },
  );

  it('does what was chosen at every stage, or says why not, and never breaks', () => {
    for (const form of [FILLED, BLANK_FORM])
      for (const stage of [1, 2, 3, 4])
        for (const { id } of BENCH_ACTIONS) {
          const bench = benchAt(stage, form);
          bench.type(KEYS.escape);
          const before = bench.state();
          bench.type(act(id));
          const after = bench.state();
          const didSomething =
            after.history.record !== before.history.record ||
            after.history.place !== before.history.place ||
            after.overlay !== null ||
            after.entry.purpose.kind !== 'row' ||
            after.notice !== null ||
            after.looking ||
            after.moving ||
            after.pictures !== before.pictures ||
            after.palette !== before.palette ||
            bench.hasQuit();
          // Taking over is answered by the disk.
          if (id !== 'take-over' && id !== 'leave') expect(didSomething, `${id} at ${stage}`).toBe(true);
        }
  });

  it('does what belongs to another stage there', () => {
    const bench = benchAt(2);
    bench.type(act('shelf'));
    expect(bench.state().history.place.stage).toBe('tube');
    expect(bench.state().overlay).toMatchObject({ kind: 'pick', purpose: 'shelf' });
  });

  it('edits and deletes nothing of another stage from the list of possible tubes', () => {
    for (const id of ['edit', 'delete'] as const) {
      const bench = benchAt(4);
      bench.type(act(id));
      expect(bench.state().history.place.stage).toBe('answer');
      expect(bench.state().history.record).toBe(FILLED);
      expect(bench.state().notice?.text).toMatch(/Nothing is written down in this list/);
    }
  });

  it('has what was chosen last at its head', () => {
    const bench = benchAt(3);
    bench.type(KEYS.up, act('brightness'), '/', enter);
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.brightness).toBe('medium');
  });

  it.each(BENCH_ACTIONS)('$label has a help that fits below the list at 80 columns', ({ key, help, at }) => {
    const stage = at === undefined ? '' : ' (stage 2)';
    const text = `   ${key === undefined ? '' : `${key}: `}${help}${stage}`;
    expect(text.length).toBeLessThan(80);
  });

  it('does nothing when nothing fits, and says so', () => {
    const bench = benchAt(3);
    bench.type('/qqqqqq\r');
    expect(bench.state().notice?.text).toMatch(/Nothing in the list fits/);
    expect(bench.state().history.record).toBe(FILLED);
  });
});

function sharedBy(word: string): number {
  return BENCH_ACTIONS.filter(({ label, words = '', help }) =>
    `${label} ${words} ${help}`.toLowerCase().includes(word),
  ).length;
}

it('Ctrl and an arrow go from stage to stage where the terminal sends no Shift+Tab', () => {
  const bench = benchAt(1);
  bench.type('\x1b[1;5C', '\x1b[1;5C');
  expect(bench.state().history.place.stage).toBe('tube');
  bench.type('\x1b[1;5D');
  expect(bench.state().history.place.stage).toBe('lamp');
});

it.each([
  [60, 20],
  [80, 24],
])('the list at %d x %d cuts no help: what has no room stands below, whole', (columns, rows) => {
  for (const stage of [1, 2, 3, 4]) {
    const bench = benchAt(stage);
    bench.type(KEYS.escape);
    for (const { label, help } of actionsHere(bench.state())) {
      bench.type(`/${label}`);
      const drawn = renderToString(
        <BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={false} />,
        { columns },
      );
      bench.type(KEYS.escape);
      expect(drawn).not.toContain('~');
      expect(drawn.replace(/\s+/g, ' ')).toContain(help);
    }
  }
});

describe('a key that stands in the list', () => {
  const SENT: Readonly<Record<string, string>> = {
    Space: ' ',
    F2: KEYS.edit,
    F3: KEYS.look,
    F4: KEYS.quickCheck,
    Delete: KEYS.delete,
  };
  const sent = (key: string): KeyEvent[] => {
    const letter = /^Ctrl\+([A-Z])$/.exec(key)?.[1];
    const chunk = letter === undefined ? (SENT[key] ?? key) : String.fromCharCode(letter.charCodeAt(0) - 64);
    return [...readKeys(KEY_READER_START, chunk).events];
  };

  it.each(
    BENCH_ACTIONS.flatMap(({ id, key, at, action }) => (key === undefined ? [] : [{ id, key, at, action }])),
  )('$key does what is written there: $id', ({ key, at, action }) => {
    const stage = at === undefined ? 2 : 1 + ['circle', 'lamp', 'tube', 'answer'].indexOf(at[0]!);
    const state = benchAt(stage).state();
    const done = sent(key).map((event) =>
      event.kind === 'text' ? actionForText(state, event.text) : actionFor(state, event),
    );
    expect(done).toEqual([action]);
  });
});

it('a question that is left leaves nothing behind of what it asked', () => {
  const bench = benchAt(3);
  bench.type('229.17\r');
  expect(bench.state().entry).toMatchObject({ decimals: 'degrees', suggestion: expect.any(String) });
  bench.type(KEYS.escape);
  expect(bench.state().entry).toMatchObject({ query: null, suggestion: null, decimals: null });
  bench.type(enter);
  expect(bench.state().entry.query).not.toBeNull();
  bench.type(KEYS.left);
  expect(bench.state().entry).toMatchObject({ query: null, suggestion: null, decimals: null });
});
