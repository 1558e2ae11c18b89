/** Readings as typed, and the deviations that follow from them. */
import type { Analysis } from '../../../analysis/types.ts';
import type { Bench, BenchLine, UnknownTube } from '../../../record/bench.ts';
import { deviationText, signedText, uncertaintyText, unitMark } from '../../quantity-text.ts';
import { type Block, heading, inCaption, number, paragraph, type Section, table } from '../document.ts';
import { settingText } from './reading-text.ts';

export function readingsSection({ bench, calibration, tubes }: Analysis): Section {
  const knownRows = bench.known.flatMap((lamp) =>
    lamp.lines.map((line) => {
      const result = calibration.lines.find(({ index }) => index === line.index);
      return [
        String(line.index + 1),
        lamp.name,
        line.statedWavelengthNm === null ? '-' : String(line.statedWavelengthNm),
        ...rowOf(line, bench, result?.deviationDeg ?? null),
      ];
    }),
  );
  const unit = unitMark(calibration.unit).trim();
  return {
    title: 'Readings and deviations',
    blocks: [
      paragraph(zeroSentence(bench)),
      ...table(
        'known lines',
        'Lines of the known lamp: readings as typed, repeats separated by semicolons.',
        [number('#'), 'lamp', number('stated (nm)'), 'colour', 'readings', ...deviationColumn(bench), 'note'],
        knownRows,
      ),
      ...bench.tubes.flatMap((tube) =>
        tubeBlocks(bench, tube, (index) => {
          const analysed = tubes.find(({ tubeIndex }) => tubeIndex === tube.index);
          return analysed?.lines.find((line) => line.index === index)?.deviationDeg ?? null;
        }),
      ),
      ...table(
        'check lines',
        'Known lines kept out of the fit, to see whether the bench has moved: reading minus curve.',
        [number('wavelength (nm)'), 'readings', number(`residual (${unit})`), number(`u (${unit})`)],
        bench.check.map(({ wavelengthNm, texts }, i) => [
          String(wavelengthNm),
          texts.join('; '),
          signedText(calibration.checks[i]?.residual ?? null, 2),
          uncertaintyText(calibration.checks[i]?.standardUncertainty ?? null),
        ]),
      ),
    ],
  };
}

function zeroSentence(bench: Bench): string {
  if (bench.method === 'scale')
    return 'The scale has no zero of deviation; its readings are used as they are.';
  if (bench.method === 'both-sides')
    return 'Each deviation is half the angle between the readings on the two sides, so no reading of the central image is needed.';
  const central = bench.central.map((setting) => settingText(setting, bench)).join('; ');
  return `Central image: ${central === '' ? 'not read' : central}. A deviation is the reading of the line minus this one, shown positive.`;
}

const deviationColumn = (bench: Bench) => (bench.method === 'scale' ? [] : [number('deviation')]);

function rowOf(line: BenchLine, bench: Bench, deviationDeg: number | null): string[] {
  return [
    line.colour ?? '-',
    line.texts.join('; '),
    ...(bench.method === 'scale' ? [] : [deviationText(deviationDeg, bench)]),
    [line.use ? '' : 'left out by the observer', line.brightness ?? '', line.note ?? '']
      .filter((part) => part !== '')
      .join('; '),
  ];
}

function tubeBlocks(bench: Bench, tube: UnknownTube, deviationOf: (index: number) => number | null): Block[] {
  const central = tube.central?.map((setting) => settingText(setting, bench)).join('; ');
  const places = tube.notSeen.map((place) =>
    place.kind === 'reading' ? place.text : `${place.wavelengthNm} nm`,
  );
  return [
    heading(tube.label),
    ...(central === undefined ? [] : [paragraph(`Central image read again for this tube: ${central}.`)]),
    ...table(
      'unknown lines',
      `Lines of ${tube.label}: readings as typed.`,
      [inCaption('tube'), number('#'), 'colour', 'readings', ...deviationColumn(bench), 'note'],
      tube.lines.map((line) => [
        tube.label,
        String(line.index + 1),
        ...rowOf(line, bench, deviationOf(line.index)),
      ]),
    ),
    ...(places.length === 0 ? [] : [paragraph(`Looked, nothing there: ${places.join('; ')}.`)]),
    paragraph(
      tube.complete
        ? 'The observer states that every line that could be seen is written down.'
        : 'The list of lines is not stated to be complete, so a faint line that is absent says little.',
    ),
  ];
}
