/** Metal lamps that are read while the gas that starts them still shows. Lines: NIST SRD 108. */
import { describe, expect, test } from 'vitest';
import { tubeWith } from './tube-bench.ts';

const argonNm = [706.72, 641.63, 549.59, 518.77, 430.01, 420.07, 415.86];
const neonNm = [650.65, 638.3, 633.44, 626.65, 614.31, 594.48, 585.25];
const lamp = (...nm: number[]) => tubeWith(nm.sort((a, b) => b - a));
type Tube = ReturnType<typeof tubeWith>;
const chanceOf = ({ candidates }: Tube, substance: string): number =>
  candidates
    .filter((row) => row.substance === substance)
    .reduce((sum, { probability }) => sum + probability, 0);

describe('a metal lamp outshone by its gas', () => {
  test('whose lines are all read comes first, with the gas', () => {
    const [first] = lamp(672.33, 660.87, 459.32, 455.53, ...argonNm).candidates;
    expect(first).toMatchObject({ substance: 'caesium', with: ['argon'] });
  });

  test('is possible where its two lines might be the gas', () => {
    // Lithium's 610.36 lies beside neon's 609.62, and its 670.78 beside neon's 671.70.
    const tube = lamp(670.78, 610.36, ...neonNm);
    expect(chanceOf(tube, 'lithium')).toBeGreaterThan(0.05);
    expect(tube.verdict.kind).toBe('undecided');
    // Neon's 659.9 nm is missing from both, and no line of lithium; whichever leads, the other fits nearly as well.
    expect(tube.reasons.join(' ')).not.toContain('lithium would show');
    expect(tube.candidates[1]!.reasonAgainst).toMatch(/nearly as well/);
  });

  test.each([
    ['argon', argonNm],
    ['neon', neonNm],
  ])('is not seen in a tube of plain %s', (gas, nm) => {
    expect(lamp(...nm).verdict).toMatchObject({ kind: 'identified', substance: gas });
  });

  test('has to show by itself where the gas is not on the shelf', () => {
    const tube = tubeWith(argonNm, { shelf: ['thallium', 'lithium', 'magnesium', 'caesium', 'krypton'] });
    expect(tube.verdict.kind).toBe('unlisted');
  });
});
