import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchRecord } from '../../src/record/schema.ts';
import { benchRecordSchema } from '../../src/record/schema.ts';
import { checkedBench } from '../../src/record/to-bench.ts';
import { actionsHere, BENCH_ACTIONS } from '../../src/tui/action-list.ts';
import { type BenchForm, formText } from '../../src/tui/form.ts';
import { guidance } from '../../src/tui/guidance.ts';
import { rowsOf } from '../../src/tui/rows.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { analyseFixture, BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { enter, tab, up, down, left, right, backspace } = KEYS;

/** At the lamp of a new bench, central image read, mercury chosen. */
function benchAtLamp() {
  const bench = openBench(BLANK_FORM);
  bench.type(enter, enter, enter, enter, '181 04\r', tab, 'merc', enter, '\x1b[H');
  return bench;
}

describe('typing a bench', () => {
  it('takes numbers as fast as they come: type, Enter, next line', () => {
    const { history } = benchAtLamp().type('229 21\r229 22\r229 40\r231 26\r');
    expect(history.record.central).toEqual(['181 04']);
    expect(history.record.known[0]).toEqual({
      lamp: 'mercury',
      lines: [
        { wavelengthNm: 579.07, readings: ['229 21'] },
        { wavelengthNm: 576.96, readings: ['229 22'] },
        { wavelengthNm: 546.07, readings: ['229 40'] },
        { wavelengthNm: 435.83, readings: ['231 26'] },
      ],
    });
  });

  it('takes a lamp whose name is mistyped for that lamp, not for a mixed one', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(tab, 'mercry\r');
    expect(bench.state().history.record.known[0]?.lamp).toBe('mercury');
    bench.type(act('lamp'), 'mercury-c\r');
    expect(bench.state().history.record.known[0]?.lamp).toBe('mercury-cadmium');
  });

  it('takes a wavelength typed before the reading, and a line left to the program', () => {
    const bench = benchAtLamp();
    bench.type('546.07 = 229 40\r', '\x1b[F', '231 26\r');
    expect(bench.state().history.record.known[0]?.lines).toEqual([
      { wavelengthNm: 546.07, readings: ['229 40'] },
      { readings: ['231 26'] },
    ]);
  });

  it('keeps colour and brightness typed after the reading', () => {
    const bench = benchAtLamp();
    bench.type(tab, '228 52 red strong\r229 17 y\r229 44 blue-green weak\r');
    expect(bench.state().history.record.unknown[0]?.lines).toEqual([
      { readings: ['228 52'], color: 'red', brightness: 'strong' },
      { readings: ['229 17'], color: 'yellow' },
      { readings: ['229 44'], color: 'blue green', brightness: 'weak' },
    ]);
  });

  it('repeats the line just read with one key', () => {
    const bench = benchAtLamp();
    bench.type('229 21\r', '+', '229 22\r', '229 23\r');
    expect(bench.state().history.record.known[0]?.lines).toEqual([
      { wavelengthNm: 579.07, readings: ['229 21', '229 22'] },
      { wavelengthNm: 576.96, readings: ['229 23'] },
    ]);
  });

  it('edits, deletes, moves, undoes and does again', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab);
    bench.type(up, KEYS.edit, backspace, backspace, backspace, "18'\r");
    const lines = () => bench.state().history.record.unknown[0]?.lines.map(({ readings }) => readings[0]);
    expect(lines()).toEqual(["228°49'", "228°53'", "229°03'", "229°18'"]);
    bench.type(act('move'), up, up, enter);
    expect(lines()).toEqual(["228°49'", "229°18'", "228°53'", "229°03'"]);
    bench.type(KEYS.delete);
    expect(lines()).toEqual(["228°49'", "228°53'", "229°03'"]);
    bench.type(KEYS.undo, KEYS.undo, KEYS.undo, KEYS.undo);
    expect(lines()).toEqual(["228°49'", "228°53'", "229°03'", "229°17'"]);
    bench.type(KEYS.redo, KEYS.redo, KEYS.redo, KEYS.redo);
    expect(lines()).toEqual(["228°49'", "228°53'", "229°03'"]);
  });

  it('measures several tubes on one calibration', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, act('tubes'), down, enter, '230 00\r');
    expect(bench.state().history.record.unknown[1]).toEqual({
      label: 'tube 2',
      lines: [{ readings: ['230 00'] }],
    });
    bench.type(left);
    expect(bench.state().history.place.tube).toBe(0);
    bench.type(right);
    expect(bench.state().history.place.tube).toBe(1);
  });

  it('asks for both windows one after the other, and takes them in one line', () => {
    const bench = openBench({
      ...BLANK_FORM,
      instrument: { method: 'central', leastCount: "1'", windows: 2 },
    });
    bench.type(enter, enter, enter, enter, '181 04\r');
    expect(bench.state().entry.parts).toEqual(['181 04']);
    bench.type('1 05\r', '181 05 / 1 05\r');
    expect(bench.state().history.record.central).toEqual([
      ['181 04', '1 05'],
      ['181 05', '1 05'],
    ]);
  });

  it('asks for left and right on a bench that reads both sides', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { method: 'both-sides', leastCount: "1'" } });
    bench.type(tab, 'mercury\r', '\x1b[H', '229 21\r132 47\r');
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual([
      { left: '229 21', right: '132 47' },
    ]);
  });

  it('takes both sides in one line that begins with a letter, in either order', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { method: 'both-sides', leastCount: "1'" } });
    bench.type(
      tab,
      'mercury\r',
      '\x1b[H',
      'l 229 21 r 132 47\r',
      'right 132 46 left 229 22\r',
      'r132 28 l229 40\r',
    );
    expect(bench.state().history.record.known[0]?.lines.map(({ readings }) => readings[0])).toEqual([
      { left: '229 21', right: '132 47' },
      { left: '229 22', right: '132 46' },
      { left: '229 40', right: '132 28' },
    ]);
    bench.type(act('lamp'), 'cadm\r');
    expect(bench.state().history.record.known[0]?.lamp).toBe('cadmium');
    bench.type(tab, 'l 229 10 r 132 58\r', act('label'), 'B2\r');
    expect(bench.state().history.record.unknown[0]).toEqual({
      label: 'B2',
      lines: [{ readings: [{ left: '229 10', right: '132 58' }] }],
    });
  });

  it('shows the central image read again for a tube, to be edited, deleted and brought back', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, act('tube-central'), "181°06'\r");
    const central = () => bench.state().history.record.unknown[0]?.central;
    expect(central()).toEqual(["181°06'"]);
    bench.type('\x1b[H');
    expect(linearSentences(bench.state(), false).join('\n')).toContain(
      "▸ 181°06' central image, read again for this tube",
    );
    bench.type(KEYS.edit, backspace, backspace, "5'\r");
    expect(central()).toEqual(["181°05'"]);
    bench.type(KEYS.delete);
    expect(bench.state().history.record.unknown[0]).not.toHaveProperty('central');
    bench.type(KEYS.undo);
    expect(central()).toEqual(["181°05'"]);
  });

  it('says what was noted, and how bright a line was said to be', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, up, act('note'), 'blurred\r');
    expect(guidance(bench.state())).toMatch(/^Note: blurred\. /);
    expect(bench.type(act('brightness')).notice?.text).toBe(
      'Brightness: strong. /brightness again changes it.',
    );
  });

  it('asks for no central image on a scale', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { method: 'scale', leastCount: 0.1 } });
    bench.type(tab, KEYS.escape, tab, act('tube-central'));
    expect(bench.state().notice?.text).toBe('A plain scale has no central image.');
    expect(bench.state().entry.purpose.kind).toBe('row');
  });

  it('takes plain numbers on a scale', () => {
    const bench = openBench({ ...BLANK_FORM, instrument: { method: 'scale', leastCount: 0.1 } });
    bench.type(tab, 'mercury\r', '12,3\r', 'abc\r');
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual([12.3]);
  });
});

describe('odd and impossible readings', () => {
  it('refuses what cannot be, with a sentence, and keeps the text', () => {
    const bench = benchAtLamp();
    bench.type('229 75\r');
    expect(bench.state().entry.refusal).toContain('75 minutes');
    expect(bench.state().entry.text).toBe('229 75');
    expect(bench.state().history.record.known[0]?.lines).toEqual([]);
  });

  it('asks once about what is odd and takes it on the second Enter', () => {
    const bench = benchAtLamp();
    bench.type('229°21\'30"\r');
    expect(bench.state().entry.query?.join()).toContain('finer');
    bench.type(enter);
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual(['229°21\'30"']);
  });

  it('asks about a central reading that agrees with none before, not about one that agrees with any', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(enter, enter, enter, enter, '181 04\r', '181 34\r');
    expect(bench.state().entry.query).toEqual(["That is 30' from 181 04, read before."]);
    bench.type(enter, '181 05\r');
    expect(bench.state().entry.query).toBeNull();
    expect(bench.state().history.record.central).toEqual(['181 04', '181 34', '181 05']);
    bench.type('180 20\r');
    expect(bench.state().entry.query).toEqual(["That is 44' from 181 04, read before."]);
  });

  it('asks about a central image read for a tube that is not where the calibration had it', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, act('tube-central'), "181°34'\r");
    expect(bench.state().entry.query?.join()).toMatch(/^That is .* from 181°0\d', read before\.$/);
    expect(bench.state().history.record.unknown[0]).not.toHaveProperty('central');
    bench.type(enter);
    expect(bench.state().history.record.unknown[0]?.central).toEqual(["181°34'"]);
  });

  it('offers what was probably meant', () => {
    const bench = benchAtLamp();
    bench.type('229°21"\r');
    expect(bench.state().entry.suggestion).toBe("229°21'");
    bench.type(tab, enter);
    expect(bench.state().history.record.known[0]?.lines[0]?.readings).toEqual(["229°21'"]);
  });

  it('asks about a reading half a degree off the curve, and names the slip as the calibration does', () => {
    const bench = benchAtLamp();
    bench.type('229 21\r229 22\r229 40\r', '230 56\r');
    expect(bench.state().entry.query?.join()).toMatch(
      /from where 435\.8 nm should be: half a degree \(30 arc-minutes\) missed/,
    );
    bench.type(KEYS.escape, KEYS.escape, '231 26\r');
    expect(bench.state().history.record.known[0]?.lines.at(-1)?.readings).toEqual(['231 26']);
  });

  it('asks to read an earlier line again where that one is misread and the new reading right', () => {
    const bench = benchAtLamp();
    bench.type('579.07 = 229 21\r', '546.07 = 229 40\r', '435.83 = 230 56\r', '\r', '404.66 = 232 18\r');
    expect(bench.state().entry.query).toEqual([
      'This reading fits, and the line named 435.83 (230 56) does not: half a degree (30 arc-minutes) missed? Read that one again.',
    ]);
    bench.type('\r');
    expect(bench.state().history.record.known[0]?.lines.at(-1)?.readings).toEqual(['232 18']);
  });

  it('does not hold the misread reading against its correction', () => {
    const bench = benchAtLamp();
    bench.type('579.07 = 229 21\r', '546.07 = 229 40\r', '435.83 = 230 56\r', '\r');
    const row = rowsOf(bench.state()).findIndex((each) => each.kind === 'line' && each.line === 2);
    bench.type('\x1b[H', ...Array.from({ length: row }, () => down));
    bench.type(KEYS.edit, ...Array.from({ length: 6 }, () => backspace), '231 26\r');
    expect(bench.state().entry.query).toBeNull();
    expect(bench.state().history.record.known[0]?.lines[2]?.readings).toEqual(['231 26']);
  });

  it('asks about half a degree even where few known lines leave the curve that uncertain', () => {
    const bench = benchAtLamp();
    bench.type('579.07 = 229 21\r', '546.07 = 229 40\r');
    const { calibration } = bench.state().result!.analysis!;
    const u = Math.sqrt(calibration.curve!.covariance(435.83, 435.83));
    expect(3 * u).toBeGreaterThan(29);
    // Two counts lower than half a degree off: at 230 56 the slip is just as likely as what is worth a word.
    bench.type('435.83 = 230 54\r');
    expect(bench.state().entry.query?.join()).toMatch(/half a degree \(30 arc-minutes\) missed/);
  });

  it('takes a right reading without a question where few known lines leave the curve uncertain', () => {
    const bench = benchAtLamp();
    bench.type('579.07 = 229 21\r', '546.07 = 229 40\r', '435.83 = 231 26\r', '404.66 = 232 18\r');
    expect(bench.state().history.record.known[0]?.lines).toHaveLength(4);
  });

  it('asks about a place no eye can see, and about the same place twice', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, '260 00\r');
    expect(bench.state().entry.query?.join()).toMatch(/no eye sees|No visible light/);
    bench.type(KEYS.escape, KEYS.escape, "228°53'\r");
    expect(bench.state().entry.query?.join()).toContain('line 2 again');
  });
});

describe('the line typed', () => {
  const typed = (bench: ReturnType<typeof openBench>) => bench.state().entry.text;

  it('is cleared by Ctrl+U, the search of a list too', () => {
    const bench = benchAtLamp();
    bench.type('229 4', '\x15');
    expect(typed(bench)).toBe('');
    bench.type(act('lamp'), 'xe', '\x15');
    expect(bench.state().overlay).toMatchObject({ kind: 'pick', query: '' });
  });

  it('begins anew at the first digit after a reading was asked about', () => {
    const bench = benchAtLamp();
    bench.type('229 21\r229 22\r229 40\r', '230 56\r');
    expect(bench.state().entry.query).not.toBeNull();
    bench.type('231 26\r');
    expect(bench.state().history.record.known[0]?.lines.at(-1)?.readings).toEqual(['231 26']);
  });

  it('is edited where an editing key came first, and a colour may be added', () => {
    for (const key of [left, backspace]) {
      const bench = benchAtLamp();
      bench.type('229 21\r229 22\r229 40\r', '230 56\r', key, '7');
      expect(typed(bench)).toBe(key === left ? '230 576' : '230 57');
    }
    const bench = benchAtLamp();
    bench.type('229 21\r229 22\r229 40\r', '230 56\r', ' blue');
    expect(typed(bench)).toBe('230 56 blue');
  });
});

describe('looking', () => {
  it('opens no prompt where no look would help, but says so', () => {
    const bench = openBench(FILLED, undefined, (form) => {
      const analysis = analyseFixture(form);
      const tubes = analysis.tubes.map((tube) => ({ ...tube, verdict: { ...tube.verdict, nextLook: null } }));
      return { ...analysis, tubes };
    });
    bench.type(tab, tab, KEYS.look);
    expect(bench.state().looking).toBe(false);
    expect(bench.state().notice?.text).toBe('No single look would help further now.');
    const blank = openBench(BLANK_FORM);
    blank.type(tab, KEYS.escape, tab, KEYS.look);
    expect(blank.state().looking).toBe(false);
    expect(blank.state().notice?.text).toMatch(/once the known lamp and some lines of the tube are read/);
  });

  it('writes down "looked, nothing there" at the place where the program sent one', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, KEYS.look, '-');
    expect(bench.state().history.record.unknown[0]?.notSeen).toEqual([{ reading: "229°41'" }]);
  });

  it('takes what was seen there as a reading', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, KEYS.look, '229 42\r');
    expect(bench.state().history.record.unknown[0]?.lines.at(-1)?.readings).toEqual(['229 42']);
  });

  it('is closed when one goes to another stage', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, KEYS.look, tab);
    expect(bench.state().looking).toBe(false);
  });

  it('does not write the same place down twice when the next one is slow to come', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, KEYS.look);
    bench.store.input('-');
    expect(guidance(bench.state())).toBe('Written down. The next place to look at comes in a moment.');
    bench.store.input('-');
    expect(bench.state().history.record.unknown[0]?.notSeen).toEqual([{ reading: "229°41'" }]);
    expect(bench.state().notice?.text).toMatch(/is written down; the next place comes/);
  });

  it('closes the prompt with a sentence when the place to look at is gone', () => {
    const bench = openBench(FILLED, undefined, (form) => {
      const analysis = analyseFixture(form);
      if ((form.unknown[0]?.notSeen?.length ?? 0) === 0) return analysis;
      const tubes = analysis.tubes.map((tube) => ({ ...tube, verdict: { ...tube.verdict, nextLook: null } }));
      return { ...analysis, tubes };
    });
    bench.type(tab, tab, KEYS.look);
    expect(bench.state().looking).toBe(true);
    bench.type('-');
    expect(bench.state().looking).toBe(false);
    expect(bench.state().notice?.text).toBe(
      'No single look would help further now: "where to look next" is closed.',
    );
  });

  it('closes the prompt when one goes to another tube', () => {
    const bench = openBench({ ...FILLED, unknown: [...FILLED.unknown, { label: 'D', lines: [] }] });
    bench.type(tab, tab, KEYS.look, right);
    expect(bench.state().looking).toBe(false);
  });
});

describe('an answer before the ranking', () => {
  const exercise = { ...FILLED, ranking: 'after-answer' as const };

  it('is marked as such, and a change after the ranking was seen is not', () => {
    const bench = openBench(exercise);
    bench.type(tab, tab, tab, enter, 'neo', enter);
    expect(bench.state().history.record.unknown[0]).toMatchObject({
      answer: 'neon',
      answerBeforeRanking: true,
    });
    bench.store.dispatch({ type: 'ranking-seen', tube: 0 });
    bench.type(act('answer'), 'argon', enter);
    expect(bench.state().history.record.unknown[0]).toMatchObject({
      answer: 'argon',
      answerBeforeRanking: false,
    });
  });
});

describe('a name typed at once on the stage of the answer', () => {
  it('is the answer, and none of its letters takes a reading back', () => {
    const bench = openBench(FILLED);
    const before = bench.state().history.record.unknown[0]?.lines;
    bench.type(tab, tab, tab, 'helium', enter);
    const tube = bench.state().history.record.unknown[0];
    expect(tube?.answer).toBe('helium');
    expect(tube?.lines).toEqual(before);
  });

  it.each([...'abcdefghijklmnopqrstuvwxyzåéHN'])(
    'may begin with %s, with an answer written and without',
    (letter) => {
      for (const answer of [undefined, 'neon']) {
        const bench = openBench({
          ...FILLED,
          unknown: FILLED.unknown.map((tube) => (answer === undefined ? tube : { ...tube, answer })),
        });
        bench.type(tab, tab, tab);
        const { history } = bench.state();
        const { overlay, history: after } = bench.type(letter);
        expect(overlay).toEqual({ kind: 'pick', purpose: 'answer', query: letter, cursor: 0 });
        expect(after.record).toBe(history.record);
        expect(bench.hasQuit()).toBe(false);
      }
    },
  );

  it.each([
    ['sodium', 'sodium'],
    ['potassium', 'potassium'],
    ['thallium', 'thallium'],
    ['carbon dioxide', 'carbon dioxide'],
    ['xenon', 'xenon'],
    ['quicksilver', 'mercury'],
  ])('is taken when %s is typed in one go', (name, answer) => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, tab, `${name}\r`);
    expect(bench.state().history.record.unknown[0]?.answer).toBe(answer);
  });

  it('has no key that is a letter, there or anywhere', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab, tab);
    const keys = actionsHere(bench.state()).flatMap(({ key = [] }) => key);
    expect(keys).toEqual(['F4', 'Space', 'Ctrl+Z', 'Ctrl+Y', 'Ctrl+P', '?', 'Ctrl+C']);
    for (const { key = '' } of BENCH_ACTIONS) expect(key).not.toMatch(/^\p{L}$/u);
  });
});

describe('leaving', () => {
  it('does not ask when nothing would be lost', () => {
    const bench = openBench(FILLED);
    bench.type('\x03');
    expect(bench.hasQuit()).toBe(true);
  });

  it('asks when a reading is being typed', () => {
    const bench = benchAtLamp();
    bench.type('229 2', '\x03');
    expect(bench.hasQuit()).toBe(false);
    bench.type(KEYS.escape);
    expect(bench.state().entry.text).toBe('229 2');
    bench.type('\x03', '\x03');
    expect(bench.hasQuit()).toBe(true);
  });

  it('asks when a reading is being changed, but not when it is only looked at', () => {
    const looked = openBench(FILLED);
    looked.type(tab, tab, up, KEYS.edit, '\x03');
    expect(looked.hasQuit()).toBe(true);
    const changed = openBench(FILLED);
    changed.type(tab, tab, up, KEYS.edit, backspace, '\x03');
    expect(changed.hasQuit()).toBe(false);
  });

  it('asks when a reading was overtyped and not taken', () => {
    const bench = benchAtLamp();
    bench.type('229 21\r229 22\r229 40\r', '230 56\r', '231 26\r', KEYS.leave);
    expect(bench.state().overlay?.kind).toBe('quit');
    bench.type(down, enter);
    expect(bench.hasQuit()).toBe(true);
  });
});

/** With check lines of the lamp and of the bench, and a second lamp. */
const CHECKED: BenchForm = {
  ...FILLED,
  check: [{ wavelengthNm: 546.07, readings: ["229°41'"] }],
  known: [
    { ...FILLED.known[0]!, check: [{ wavelengthNm: 435.83, readings: ["231°26'"], color: 'blue' }] },
    { lamp: 'cadmium', lines: [{ wavelengthNm: 508.58, readings: ["230°10'"] }] },
  ],
};

const SCALE: BenchForm = {
  ...BLANK_FORM,
  instrument: { method: 'scale', leastCount: 0.1 },
  known: [{ lamp: 'mercury', lines: [{ wavelengthNm: 546.07, readings: [12.3] }] }],
};

/** All but what only the disk can answer. */
const anyKey = fc.oneof(
  fc.constantFrom(...Object.values(KEYS)),
  fc.constantFrom(
    ...'+-/edmikbohlnxfztsapc uyvj?0123456789.',
    ...BENCH_ACTIONS.flatMap(({ id }) => (id === 'save-as' || id === 'take-over' ? [] : [act(id)])),
  ),
  fc.constantFrom(
    '229 40',
    '231 26\r',
    "228°52' red\r",
    '546.07 = 229 40\r',
    '\x10',
    '\x15',
    '230 15\r230 16\r',
    '229 41 check\r',
    '404.66 = 232 18 check\r',
    '\x1b[3~',
    '\x1b[200~229 39\n231 26\x1b[201~',
  ),
);

describe('any keys at all', () => {
  it('keep the record valid, the cursor on a row, and undo leads back to the start', () => {
    fc.assert(
      fc.property(
        fc.array(anyKey, { maxLength: 40 }),
        fc.constantFrom(BLANK_FORM, FILLED, CHECKED, SCALE),
        (chunks, start) => {
          const bench = openBench(start);
          for (const chunk of chunks) {
            bench.store.input(chunk);
            const { history } = bench.state();
            expect(benchRecordSchema.safeParse(history.record).success).toBe(true);
            expect(checkedBench(history.record as BenchRecord).ok).toBe(true);
            expect(history.place.row).toBeGreaterThanOrEqual(0);
            expect(history.place.row).toBeLessThan(Math.max(1, rowsOf(bench.state()).length));
          }
          const end = formText(bench.state().history.record);
          let undone = 0;
          while (bench.state().history.past.length > 0) {
            bench.store.dispatch({ type: 'undo' });
            undone += 1;
          }
          expect(formText(bench.state().history.record)).toBe(formText(start));
          for (; undone > 0; undone -= 1) bench.store.dispatch({ type: 'redo' });
          expect(formText(bench.state().history.record)).toBe(end);
        },
      ),
      { numRuns: 60 },
    );
  });
});
