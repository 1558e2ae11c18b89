/** Texts that try to act on the terminal, in every place of the screen that a text can come to. */
import fc from 'fast-check';
import { renderToString } from 'ink';
import type { ReactElement } from 'react';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import type { BenchForm } from '../../src/tui/form.ts';
import type { ScreenState } from '../../src/tui/state.ts';
import { LinearScreen } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { FILLED } from '../tui/fixture.ts';
import { KEYS, openBench } from '../tui/harness.ts';
import { attacks, hostileText, obeyedByTerminals } from './hostile-text.ts';

export interface HostileBudget {
  /** Random texts besides the known attacks. */
  readonly texts: number;
  /** Screens for each text in each place. */
  readonly screens: number;
}

type Put = (state: ScreenState, text: string) => ScreenState;

/** The text put into the record on the screen and into the one computed, as if the reader had let it through. */
function inForm(put: (form: BenchForm, text: string) => BenchForm): Put {
  return (state, text) => {
    const record = put(state.history.record, text);
    return {
      ...state,
      history: { ...state.history, record },
      result: state.result === null ? null : { ...state.result, form: record },
    };
  };
}

const inTube = (
  put: (tube: BenchForm['unknown'][number], text: string) => BenchForm['unknown'][number],
): Put => inForm((form, text) => ({ ...form, unknown: form.unknown.map((tube) => put(tube, text)) }));

const inLines = (put: (text: string) => object): Put =>
  inForm((form, text) => {
    const changed = <Line extends object>(lines: readonly Line[]): readonly Line[] =>
      lines.map((line) => ({ ...line, ...put(text) }));
    return {
      ...form,
      known: form.known.map((lamp) => ({
        ...lamp,
        lines: changed(lamp.lines),
        check: changed(lamp.check ?? []),
      })),
      unknown: form.unknown.map((tube) => ({ ...tube, lines: changed(tube.lines) })),
    };
  });

const inInstrument = (put: (text: string) => object): Put =>
  inForm((form, text) => ({ ...form, instrument: { ...form.instrument, ...put(text) } }));

const inAbout = (name: string): Put =>
  inForm((form, text) => ({ ...form, about: { ...form.about, [name]: text } }));

const inEntry =
  (put: (text: string) => Partial<ScreenState['entry']>): Put =>
  (state, text) => ({ ...state, entry: { ...state.entry, ...put(text) } });

/** Every text of the analysis that a view draws. */
const inAnalysis = (name: string, put: (analysis: Drawn, text: string) => void): readonly [string, Put] => [
  name,
  (state, text) => {
    if (state.result?.analysis == null) return state;
    const { calibration, tubes, ...rest } = state.result.analysis;
    const { lines, doubts } = calibration;
    const copied = structuredClone({ lines, doubts, tubes });
    const analysis = {
      ...rest,
      calibration: { ...calibration, lines: copied.lines, doubts: copied.doubts },
      tubes: copied.tubes,
    };
    put(analysis as unknown as Drawn, text);
    return { ...state, result: { ...state.result, analysis } };
  },
];

interface Drawn {
  readonly calibration: {
    model: string;
    lines: { message: string | null; status: string }[];
    doubts: { message: string; step: string; kind: string; index: null; probability: number }[];
  };
  readonly tubes: {
    label: string;
    verdict: { sentence: string };
    reasons: string[];
    candidates: { substance: string; indistinguishable: string[] }[];
    doubts: { index: number | null; message: string }[];
    warnings: { code: string; message: string }[];
  }[];
}

/** Where a text can be; on each at least one of the screens shows it. */
const SHOWN: readonly (readonly [string, Put])[] = [
  ['title', inForm((form, title) => ({ ...form, title }))],
  ['station', inAbout('station')],
  ['observers', inAbout('observers')],
  ['lamp', inForm((form, lamp) => ({ ...form, known: form.known.map((each) => ({ ...each, lamp })) }))],
  ['label', inTube((tube, label) => ({ ...tube, label }))],
  ['answer', inTube((tube, answer) => ({ ...tube, answer }))],
  ['answer of the record', inForm((form, answer) => ({ ...form, answer }))],
  ['shelf', inTube((tube, name) => ({ ...tube, shelf: [name] }))],
  ['note', inLines((note) => ({ note }))],
  ['colour', inLines((color) => ({ color }))],
  ['brightness', inLines((brightness) => ({ brightness }))],
  ['readings', inLines((reading) => ({ readings: [reading, reading] }))],
  ['central image', inForm((form, reading) => ({ ...form, central: [reading] }))],
  ['central image of the tube', inTube((tube, reading) => ({ ...tube, central: [reading] }))],
  ['a place where nothing was seen', inTube((tube, reading) => ({ ...tube, notSeen: [{ reading }] }))],
  ['least count', inInstrument((leastCount) => ({ leastCount }))],
  ['scale division', inInstrument((scaleDivision) => ({ scaleDivision }))],
  ['apex angle', inInstrument((value) => ({ apexAngle: { value, u: value } }))],
  ['file name', (state, fileName) => ({ ...state, fileName })],
  ['notice: lock host, trail, disk', (state, text) => ({ ...state, notice: { tone: 'doubt', text } })],
  ['why it is in memory only', (state, why) => ({ ...state, keeping: { kind: 'memory-only', why } })],
  ['text typed', inEntry((text) => ({ text, caret: Math.floor(text.length / 2) }))],
  ['parts typed', inEntry((text) => ({ parts: [text], purpose: { kind: 'quick-check' } }))],
  ['what is asked', inEntry((text) => ({ query: [text] }))],
  ['what is suggested', inEntry((suggestion) => ({ query: ['odd'], suggestion }))],
  ['what is refused', inEntry((refusal) => ({ refusal }))],
  [
    'what was typed and not taken',
    (state, text) => {
      const { place, record } = state.history;
      return { ...state, untaken: [{ text, purpose: { kind: 'row' }, place, record, remindFor: 1 }] };
    },
  ],
  [
    'what is searched in a list',
    (state, query) => ({ ...state, overlay: { kind: 'pick', purpose: 'answer', query, cursor: 0 } }),
  ],
  [
    'labels in a list',
    (state, text) =>
      inTube((tube, label) => ({ ...tube, label }))(
        { ...state, overlay: { kind: 'pick', purpose: 'tube', query: '', cursor: 0 } },
        text,
      ),
  ],
  [
    'what is pasted',
    (state, text) => ({
      ...state,
      overlay: { kind: 'paste', lines: [text, '229 39'], leftOut: 7, isCut: false, decimals: 'degrees' },
    }),
  ],
  ['the tube compared with', (state, compareWith) => ({ ...state, compareWith })],
  [
    'why nothing is computed',
    (state, problem) => ({ ...state, result: { ...state.result!, analysis: null, problem } }),
  ],
  inAnalysis('the model', ({ calibration }, text) => {
    calibration.model = text;
  }),
  inAnalysis('doubts of lines', ({ calibration }, text) => {
    for (const line of calibration.lines) line.message = text;
  }),
  inAnalysis('doubts of the bench', ({ calibration }, message) => {
    calibration.doubts.push({
      message,
      step: 'central',
      kind: 'opposite-window',
      index: null,
      probability: 1,
    });
  }),
  inAnalysis('the verdict', ({ tubes }, text) => {
    for (const tube of tubes) tube.verdict.sentence = text;
  }),
  inAnalysis('reasons', ({ tubes }, text) => {
    for (const tube of tubes) tube.reasons = [text];
  }),
  inAnalysis('names of candidates', ({ tubes }, text) => {
    for (const tube of tubes) for (const candidate of tube.candidates) candidate.indistinguishable = [text];
  }),
  inAnalysis('doubts of the tube', ({ tubes }, message) => {
    for (const tube of tubes) tube.doubts.push({ index: null, message });
  }),
  inAnalysis('warnings', ({ tubes }, message) => {
    for (const tube of tubes) tube.warnings.push({ code: 'odd', message });
  }),
];

/** Where no screen shows them today; a later one may. */
const NOT_SHOWN: readonly (readonly [string, Put])[] = [
  ...['date', 'lamp', 'tube', 'prism', 'slit', 'temperature', 'remarks'].map(
    (name) => [name, inAbout(name)] as const,
  ),
];

const { tab, down, enter } = KEYS;
const SCREENS: readonly (readonly [string, readonly string[]])[] = [
  ['the circle', []],
  ['its last rows', Array<string>(16).fill(down)],
  ['the known lamp', [tab]],
  ['a known line', [tab, '\x1b[H']],
  ['the curve', [tab, ' ', ' ']],
  ['the tube', [tab, tab]],
  ['a line of it', [tab, tab, '\x1b[H']],
  ['the possible tubes', [tab, tab, ' ', ' ', ' ', ' ']],
  ['the answer', [tab, tab, tab]],
  ['leaving', [tab, '229', '\x03']],
  ['the keys', [tab, tab, '?']],
  ['the lists', [tab, tab, tab, enter]],
];

const screens = SCREENS.map(([name, keys]) => {
  const bench = openBench({
    ...FILLED,
    known: [{ ...FILLED.known[0]!, check: [{ wavelengthNm: 546.07, readings: ["229°40'"] }] }],
  });
  bench.type(...keys);
  return { name, state: bench.state() };
});

/** `rows`: of the terminal; null: sentences, as many as there are. */
const LOOKS: readonly {
  readonly columns: number;
  readonly rows: number | null;
  draw(state: ScreenState): ReactElement;
}[] = [
  {
    columns: 80,
    rows: 24,
    draw: (state) => <BenchScreen state={state} columns={80} rows={24} ascii={false} />,
  },
  {
    columns: 160,
    rows: 50,
    draw: (state) => <BenchScreen state={state} columns={160} rows={50} ascii={true} />,
  },
  { columns: 300, rows: null, draw: (state) => <LinearScreen state={state} ascii={false} /> },
];

const drawn = LOOKS.flatMap(({ columns, rows, draw }) =>
  screens.map(({ name, state }) => ({
    name: `${name}, ${columns} columns`,
    columns,
    rows,
    frame: (put: Put, text: string) => renderToString(draw(put(state, text)), { columns }),
  })),
);

/** Frames drawn with hostile texts: each text in each place, on other screens in turn. */
export function describeHostileScreen({ texts: random, screens: each }: HostileBudget): void {
  describe('a hostile text on the screen', () => {
    it.each(SHOWN)('%s: is drawn somewhere, so that the rest is no empty promise', (_, put) => {
      const marker = 'zq17';
      expect(drawn.some(({ frame }) => frame(put, marker).includes(marker))).toBe(true);
    });

    const texts = [...attacks, ...fc.sample(hostileText, random)];

    it(`${texts.length} texts in ${SHOWN.length + NOT_SHOWN.length} places, ${drawn.length} screens: nothing that a terminal obeys, and every line in its place`, () => {
      const puts = [ALL_OF_THE_RECORD, ...SHOWN.filter(([place]) => OF_THE_MOMENT.has(place))];
      for (const [at, text] of texts.entries())
        for (const [which, [place, put]] of puts.entries())
          for (const { name, frame, rows, columns } of inTurn(at + which, which === 0 ? 4 * each : each)) {
            const raw = frame(put, text);
            const where = `${place}, ${name}, ${JSON.stringify(text)}`;
            expect(raw, where).not.toMatch(obeyedByTerminals);
            if (rows === null) continue;
            const lines = raw.split('\n');
            expect(lines.length, where).toBe(rows - 1);
            for (const line of lines) expect(stringWidth(line), where).toBeLessThan(columns);
          }
    });
  });
}

/** Only one of these can be on the screen at a time. */
const OF_THE_MOMENT = new Set([
  'notice: lock host, trail, disk',
  'text typed',
  'parts typed',
  'what is asked',
  'what is suggested',
  'what is refused',
  'what was typed and not taken',
  'what is searched in a list',
  'labels in a list',
  'what is pasted',
  'the tube compared with',
  'why nothing is computed',
]);

const ALL_OF_THE_RECORD: readonly [string, Put] = [
  'all of the record and its analysis',
  (state, text) =>
    [...SHOWN, ...NOT_SHOWN]
      .filter(([place]) => !OF_THE_MOMENT.has(place))
      .reduce((current, [, put]) => put(current, text), state),
];

/** So many screens, others at every turn. */
function inTurn(turn: number, count: number) {
  return Array.from({ length: count }, (_, at) => drawn[(turn * count + at) % drawn.length]!);
}
