/** The wavelengths of the unknown tube's lines. */
import type { Analysis } from '../../../analysis/types.ts';
import { roundWithUncertainty } from '../../../numeric/round-uncertainty.ts';
import { deviationText } from '../../quantity-text.ts';
import { type Block, number, paragraph, type Section, table } from '../document.ts';

export function wavelengthsSection({ bench, tubes }: Analysis): Section {
  const onCircle = bench.method !== 'scale';
  const rows = tubes.flatMap((tube) =>
    tube.lines.map((line) => {
      const { wavelengthNm, standardUncertaintyNm: u } = line;
      const given = wavelengthNm === null || u === null ? null : roundWithUncertainty(wavelengthNm, u);
      const colour = bench.tubes[tube.tubeIndex]?.lines.find(({ index }) => index === line.index)?.colour;
      const remarks = [
        line.extrapolated ? 'outside the known lines' : '',
        line.status === 'slip' ? 'slip?' : '',
      ];
      return [
        tube.label,
        String(line.index + 1),
        colour ?? '-',
        ...(onCircle ? [deviationText(line.deviationDeg, bench)] : []),
        given?.value ?? '-',
        given?.u ?? '-',
        remarks.filter((remark) => remark !== '').join('; '),
      ];
    }),
  );
  const blocks: Block[] = [
    paragraph(
      'Wavelengths in standard air. u is the standard uncertainty with everything in it; about 95 % of true values lie within ±2u. Value and uncertainty are rounded by the rule of the Particle Data Group. All lines share one calibration, so their errors are partly common: the difference of two neighbouring wavelengths is known better than either.',
    ),
    ...table(
      'wavelengths',
      'Wavelengths of the lines of the unknown tube.',
      [
        'tube',
        number('#'),
        'colour',
        ...(onCircle ? [number('deviation')] : []),
        number('wavelength (nm)'),
        number('u (nm)'),
        'remark',
      ],
      rows,
    ),
  ];
  return {
    title: 'Wavelengths',
    blocks: rows.length === 0 ? [paragraph('No line of an unknown tube was read.')] : blocks,
  };
}
