/** A reading typed before the last one has been computed is judged by the curve that holds the last one. */
import { describe, expect, it } from 'vitest';
import { analyseForm } from '../../src/tui/computation.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { BLANK_FORM, FILLED } from './fixture.ts';
import { act, KEYS, openBench } from './harness.ts';

const { tab, enter, quickCheck } = KEYS;
const asked = (bench: ReturnType<typeof openBench>) => bench.state().entry.query?.join(' ') ?? null;

/** Mercury with its lines still to be read. */
const unread: BenchForm = { ...FILLED, known: [{ lamp: 'mercury', lines: [] }], unknown: [{ lines: [] }] };

describe('readings typed faster than they are computed', () => {
  it('are asked about like those that are typed slowly', () => {
    const keys = [
      '579.07 = 229 21\r',
      '576.96 = 229 22\r',
      '546.07 = 229 40\r',
      '435.83 = 231 26\r',
      '404.66 = 231 48\r',
    ];
    const slow = openBench(unread);
    slow.type(tab, ...keys);
    const fast = openBench(unread);
    fast.typeFast(tab, ...keys);
    expect(asked(slow)).toMatch(/half a degree \(30 arc-minutes\) missed\?/);
    expect(asked(fast)).toBe(asked(slow));
    expect(fast.state().history.record.known[0]?.lines).toHaveLength(4);
  });

  it('are judged before the first computation of a record that is opened again', () => {
    const bench = openBench(FILLED, undefined, analyseForm, { isComputed: false });
    bench.typeFast(tab, '491.60 = 229 55\r');
    expect(bench.state().result).toBeNull();
    expect(asked(bench)).toMatch(/half a degree/);
  });

  it('count from the central image as it is now', () => {
    const bench = openBench(FILLED);
    bench.type(KEYS.backTab, KEYS.backTab);
    const before = bench.state().result;
    bench.typeFast(tab, tab, act('tube-central'), "181°34'\r", enter, '229 28\r', enter);
    // Half a degree further, and so is the tube's own zero: 228°58' as it was.
    expect(bench.state().result).toBe(before);
    bench.typeFast(quickCheck, '228 58\r');
    const fast = bench.state().notice?.text;
    bench.compute();
    bench.typeFast('228 58\r');
    expect(fast).toBe(bench.state().notice?.text);
  });

  it('leave what is shown until the analysis comes', () => {
    const bench = openBench(FILLED);
    bench.type(tab, tab);
    const before = bench.state().result;
    bench.typeFast('229 44\r');
    expect(bench.state().result).toBe(before);
    expect(bench.compute().result?.form).toBe(bench.state().history.record);
  });
});

it('keys wait for what judges them', async () => {
  const bench = openBench(BLANK_FORM, undefined, analyseForm, { isComputed: false, isLoaded: false });
  bench.typeFast(enter);
  expect(bench.state().history.place.row).toBe(0);
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(bench.state().history.place.row).toBe(1);
});
