/** An identification as it is told: its data, with a sentence to each finding. */
import type { TubeFinding } from '../identify/findings/tube-finding.ts';
import type { TubeIdentification } from '../identify/types.ts';
import type { Bench, UnknownTube, Warning } from '../record/bench.ts';
import { reasonAgainstText, reasonInShort } from '../words/reason-against.ts';
import { runnerUpSentences } from '../words/runner-up.ts';
import {
  notSeenWarnings,
  readAgainPairs,
  readAgainWarning,
  tellTubeFinding,
} from '../words/tube-findings.ts';
import { verdictSentence } from '../words/verdict.ts';
import type { Candidate, TubeAnalysis, TubeLineResult } from './types.ts';

/** A tube as it was identified, with a sentence to each finding; the numbers stay as they are. */
export function tellTube(bench: Bench, tube: UnknownTube, found: TubeIdentification): TubeAnalysis {
  const tell = (finding: TubeFinding) => tellTubeFinding(bench, tube, finding);
  const { kind, substance, nextLook } = found.verdict;
  return {
    tubeIndex: tube.index,
    label: tube.label,
    shift: found.shift && {
      value: found.shift.value,
      u: found.shift.u,
      unit: bench.method === 'scale' ? 'scale' : 'arcmin',
    },
    lines: found.lines.map(({ finding, ...line }): TubeLineResult => {
      const message = finding === null ? leftOut(tube, line.index) : (tell(finding)[0]?.message ?? null);
      return { ...line, message };
    }),
    candidates: found.candidates.map(
      ({ against: _, ...candidate }, i): Candidate => ({
        reasonAgainst: reasonAgainstText(found.candidates[i]!, found),
        reasonInShort: reasonInShort(found.candidates[i]!, found),
        ...candidate,
      }),
    ),
    verdict: { kind, substance, sentence: verdictSentence(found), nextLook },
    reasons: runnerUpSentences(found),
    doubts: found.findings.flatMap(tell),
    warnings: [
      ...(found.lacks === null ? [] : [lackWarning(tube, found.lacks)]),
      ...[readAgainWarning(tube, found.findings) ?? []].flat(),
      ...notSeenWarnings(tube, found.findings),
    ],
    readTwice: readAgainPairs(found.findings).map(({ index }) => index),
  };
}

function leftOut(tube: UnknownTube, index: number): string | null {
  const isUsed = tube.lines.find((line) => line.index === index)?.use ?? true;
  return isUsed ? null : `Reading ${index + 1} is left out by the record ("use": false).`;
}

const LACKING = {
  calibration: ['no-calibration', 'without a calibration curve no wavelength can be given.'],
  readings: ['no-unknown-lines', 'there is no reading of an unknown line yet.'],
  'more-readings': [
    'few-unknown-lines',
    'only one line is read, and no other checks it: look for more, and read it again.',
  ],
} as const;

function lackWarning({ label }: UnknownTube, lacks: keyof typeof LACKING): Warning {
  const [code, sentence] = LACKING[lacks];
  return { code, message: `${label}: ${sentence}` };
}
