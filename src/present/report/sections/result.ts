/** The first page: what the readings say, what the observer concluded, and the one picture that shows it. */
import type { Analysis, TubeAnalysis } from '../../../analysis/types.ts';
import type { Bench } from '../../../record/bench.ts';
import { verdictWords } from '../../identify-text.ts';
import { type Block, blocksOf, paragraph, type Section, table } from '../document.ts';
import { curvePicture, leadingTube, stripPicture } from './pictures.ts';

export function resultSection(analysis: Analysis): Section {
  const { bench, calibration, tubes } = analysis;
  const [first] = tubes;
  const leading = first === undefined ? null : leadingTube(first);
  const picture: Block[] =
    calibration.curve === null
      ? []
      : first === undefined || leading === null
        ? [curvePicture(analysis, calibration.curve)]
        : stripPicture(bench, first, leading, calibration.curve);
  return {
    title: 'Result',
    blocks: blocksOf(
      tubes.length === 0 ? paragraph('The record has no unknown tube yet.') : answerTable(bench, tubes),
      picture,
    ),
  };
}

/** The program's result beside the student's own. */
function answerTable(bench: Bench, tubes: readonly TubeAnalysis[]): Block[] {
  return table(
    'result',
    'A chance is the probability given these readings and the listed tubes, each equally likely beforehand.',
    ['tube', 'from the readings', "the observer's answer"],
    tubes.map((tube) => {
      const source = bench.tubes[tube.tubeIndex];
      const when = source?.answerBeforeRanking;
      const timing =
        when === true ? ' (before seeing the ranking)' : when === false ? ' (after seeing the ranking)' : '';
      return [tube.label, verdictWords(tube), source?.answer ? `${source.answer.text}${timing}` : 'none'];
    }),
  );
}
