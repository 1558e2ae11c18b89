import { renderToString } from 'ink';
import { describe, expect, it } from 'vitest';
import type { BenchRecord } from '../../src/record/schema.ts';
import { checkedBench } from '../../src/record/to-bench.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { rankingIsHeldBack } from '../../src/tui/ranking.ts';
import { linearSentences } from '../../src/tui/views/linear.tsx';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { BLANK_FORM, FILLED, startStateOf } from './fixture.ts';
import { KEYS, openBench } from './harness.ts';

const { tab, up, left, right } = KEYS;
const END = '\x1b[F';

function titleOf(bench: ReturnType<typeof openBench>): string {
  const frame = renderToString(<BenchScreen state={bench.state()} columns={80} rows={24} ascii={false} />, {
    columns: 80,
  });
  return frame.split('\n')[0]!;
}

describe('the exercise', () => {
  it('is a setting of the first stage, and the header says that it is on', () => {
    const bench = openBench(BLANK_FORM);
    bench.type(END);
    expect(linearSentences(bench.state(), true).join('\n')).toMatch(/^> Exercise off$/m);
    expect(titleOf(bench)).not.toContain('exercise');
    bench.type(right);
    expect(bench.state().history.record.ranking).toBe('after-answer');
    expect(linearSentences(bench.state(), true).join('\n')).toMatch(
      /^> Exercise on: possible tubes only after/m,
    );
    expect(titleOf(bench)).toContain('whichgas  exercise: a new bench');
    bench.type(left);
    expect(bench.state().history.record).not.toHaveProperty('ranking');
  });

  it('set by the lamp of a station is on, and can be turned off before a line of the tube is read', () => {
    const station = openBench({
      ...BLANK_FORM,
      known: [{ lamp: 'helium', lines: [], ranking: 'after-answer' }],
    });
    expect(titleOf(station)).toContain('exercise');
    station.type(END, right);
    expect(station.state().history.record.ranking).toBe('always');
    expect(titleOf(station)).not.toContain('exercise');
  });

  it('stays on once a line of the tube is written down', () => {
    const bench = openBench({ ...FILLED, ranking: 'after-answer' });
    bench.type(END, right);
    expect(bench.state().history.record.ranking).toBe('after-answer');
    expect(bench.state().notice?.text).toMatch(/The exercise has begun/);
    const begun = openBench(FILLED);
    begun.type(END, right);
    expect(begun.state().history.record.ranking).toBe('after-answer');
  });

  it('says that the possible tubes are shown once the answer is written', () => {
    const unknown = FILLED.unknown.map((tube) => ({ ...tube, answer: 'neon' }));
    const bench = openBench({ ...FILLED, ranking: 'after-answer', unknown });
    bench.type(END, right);
    expect(bench.state().history.record.ranking).toBe('after-answer');
    expect(bench.state().notice?.text).toMatch(/has begun.*your answer is written, so/);
  });

  it('names no gas in quick check, next look and lists of the tube stage', () => {
    const bench = openBench({ ...FILLED, ranking: 'after-answer' });
    bench.type(tab, tab, KEYS.quickCheck, "228°53'\r");
    expect(bench.state().notice?.text).toContain('no gas is named before your answer is written');
    bench.type(KEYS.escape, KEYS.look, up);
    expect(linearSentences(bench.state(), true).join('\n')).not.toMatch(/neon|argon/);
  });

  const settings = [undefined, 'always', 'after-answer'] as const;
  const lampOf = (ranking: (typeof settings)[number]) => ({
    lamp: 'helium',
    lines: [],
    ...(ranking === undefined ? {} : { ranking }),
  });
  const cases = settings.flatMap((first) => settings.map((second) => [first, second] as const));

  it.each(cases)('of lamps that say %s and %s is what the bench made from the record is', (first, second) => {
    const form: BenchForm = { ...FILLED, known: [lampOf(first), lampOf(second)] };
    const read = checkedBench(form as BenchRecord);
    expect(read.ok && read.bench.tubes[0]?.ranking).toBe(
      rankingIsHeldBack(startStateOf(form)) ? 'after-answer' : 'always',
    );
  });
});
