import { describe, expect, it } from 'vitest';
import { farewell } from '../../src/tui/farewell.ts';
import { BLANK_FORM, FILLED, startStateOf } from './fixture.ts';

describe('after leaving', () => {
  it('it is said where the record is, and what can be done with it', () => {
    const state = { ...startStateOf(FILLED, 'monday/bench 2.json'), keeping: { kind: 'saved' } as const };
    expect(farewell(state)).toEqual([
      'the record is kept in monday/bench 2.json.',
      'to go on, or measure another tube: whichgas "monday/bench 2.json"',
      'for the report: whichgas report "monday/bench 2.json" --out report.html',
    ]);
  });

  it('readings that were not saved are said not to be, and an empty bench says nothing', () => {
    const why = 'the disk is full.';
    const lost = { ...startStateOf(FILLED), keeping: { kind: 'memory-only', why } as const };
    expect(farewell(lost)).toEqual(['the record was not saved: the disk is full.']);
    expect(farewell(startStateOf(BLANK_FORM))).toEqual([]);
    expect(farewell({ ...lost, keeping: { kind: 'demonstration' } })).toEqual([]);
  });
});
