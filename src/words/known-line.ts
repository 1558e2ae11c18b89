/** What is said of one known line. */
import type { KnownLineFinding } from '../calibrate/findings.ts';
import type { Bench, KnownBenchLine } from '../record/bench.ts';
import { amountText } from './amount-text.ts';
import { causeText, readAndMeant, slipSentence } from './slip-text.ts';

type Perhaps = Extract<KnownLineFinding, { what: 'perhaps' }>;

/** One sentence or two: what looks wrong, and what to do. */
export function knownLineSentence(bench: Bench, line: KnownBenchLine, finding: KnownLineFinding): string {
  const { index, statedWavelengthNm } = line;
  const number = `Known line ${index + 1}`;
  const named = statedWavelengthNm === null ? `line ${index + 1}` : `the line named ${statedWavelengthNm}`;
  const reading = line.texts[0] ?? '';
  switch (finding.what) {
    case 'slip': {
      const stated = statedWavelengthNm === null ? '' : `${named}, `;
      return `${number} (${stated}read ${reading}): ${slipSentence(bench, finding.slip)}`;
    }
    case 'neighbour': {
      const { fit } = finding;
      const left = fit === null ? '' : ` (it fits to ${unitText(bench, Math.max(fit, leastFit(bench)))})`;
      return `${number}: ${named} reads like ${finding.wavelengthNm.toFixed(2)}: named for its neighbour?${left} Compare with the lamp's line table; mark it confirmed if you are sure.`;
    }
    case 'set-aside': {
      const off = finding.off === null ? '' : ` by ${unitText(bench, finding.off)}`;
      const then = line.confirmed
        ? 'Its wavelength is marked confirmed: read it again.'
        : 'Read it again, or look whether its wavelength is a misprint.';
      return `${number}: ${named} (read ${reading}) is off the curve${off} and no usual slip explains it; it is set aside. ${then}`;
    }
    case 'perhaps': {
      const called = statedWavelengthNm === null ? '' : ` (named ${statedWavelengthNm})`;
      return `${number}${called} ${perhapsText(bench, finding)}, with a chance of ${Math.round(100 * finding.probability)} %: ${perhapsDo(finding)}.`;
    }
    case 'left-out':
      return `${number} is left out by the record ("use": false).`;
    case 'no-deviation':
      return 'No deviation can be computed for this line.';
  }
}

function perhapsText(bench: Bench, { fault, slip, wavelengthNm }: Perhaps): string {
  if (slip) {
    const [read, meant] = readAndMeant(bench, slip);
    return `may be ${meant}, read as ${read} (${causeText(bench, slip.cause)})`;
  }
  return fault === 'neighbour'
    ? `may be ${wavelengthNm!.toFixed(2)}, its neighbour`
    : 'may be wrong for a reason that has no name';
}

function perhapsDo({ fault }: Perhaps): string {
  return fault === 'neighbour'
    ? "compare with the lamp's line table, and mark it confirmed if you are sure"
    : 'read it again';
}

function unitText(bench: Bench, amount: number): string {
  return amountText(amount, bench.method === 'scale' ? 'scale' : 'arcmin');
}

/** Nobody reads better than this: a fit said to be closer would promise too much. */
function leastFit(bench: Bench): number {
  return bench.method === 'scale' ? 0.1 * bench.leastCount : 0.1;
}
