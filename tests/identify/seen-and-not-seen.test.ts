/** A place in "notSeen" at which the record has a line: one sentence that names both. */
import { expect, test } from 'vitest';
import { heliumNm, recordOf, unknownTube } from '../calibrate/glass-bench.ts';
import { analysedTube, reader } from './tube-bench.ts';

const nm = heliumNm.slice(1, 7);
const said = (notSeen: readonly object[]): string[] =>
  analysedTube(recordOf(reader, { unknown: unknownTube(reader, nm, { label: 'T', notSeen }) }))
    .warnings.filter(({ code }) => code === 'seen-and-not-seen')
    .map(({ message }) => message);

test('told as a reading or as a wavelength: the line and the place are named', () => {
  expect(said([{ reading: reader.line(587.56) }])).toEqual([
    `T: reading 2 (${reader.line(587.56)}) is a line at the very place ${reader.line(587.56)} where nothing was seen ("notSeen"): the reading counts, and the place does not; take out what is wrong.`,
  ]);
  expect(said([{ wavelengthNm: 587.56 }])).toEqual([
    expect.stringContaining('the very place 587.56 nm where'),
  ]);
  expect(said([{ wavelengthNm: 587.56 }, { reading: reader.line(501.57) }])).toHaveLength(2);
});

test('a place beside a line is no contradiction, nor one far from all', () => {
  expect(said([{ wavelengthNm: 706.52 }, { reading: reader.line(546.07) }])).toEqual([]);
  expect(said([{ wavelengthNm: 592 }, { wavelengthNm: 583 }])).toEqual([]);
});
