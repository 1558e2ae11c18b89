/** What looks wrong with a tube's readings, in sentences. */
import { formatAngle } from '../angle/format-angle.ts';
import type { ReadingPartName } from '../identify/findings/shifted-part.ts';
import type { TubeFinding } from '../identify/findings/tube-finding.ts';
import { roundWithUncertainty } from '../numeric/round-uncertainty.ts';
import { sumOf } from '../numeric/sum.ts';
import type { MisreadAlternative } from '../observe/central-hypotheses.ts';
import type { Bench, UnknownTube, Warning } from '../record/bench.ts';
import { centralApartSentence } from './central-text.ts';
import type { Doubt } from './doubt.ts';
import { lampsOf } from './lamp-moved.ts';
import { causeText, readAndMeant, slipSentence } from './slip-text.ts';

/** The doubts that a finding is worth; most are one. */
export function tellTubeFinding(bench: Bench, tube: UnknownTube, finding: TubeFinding): Doubt[] {
  const central = (kind: string, probability: number, sentence: string): Doubt[] => [
    { step: 'central', index: null, kind, probability, message: `${tube.label}: ${sentence}` },
  ];
  switch (finding.what) {
    case 'slip': {
      const { index, probability, slip } = finding;
      const message = `${tube.label}, reading ${index + 1}: ${slipSentence(bench, slip)}`;
      return [{ step: 'unknown', index, kind: 'slip', probability, message }];
    }
    case 'slip-of-several': {
      const { several, probability } = finding;
      const told = several.map(({ index, slip }) => {
        const [read, meant] = readAndMeant(bench, slip);
        return `reading ${index + 1}, ${read} for ${meant} (${causeText(bench, slip.cause).replace(/ \(.*\)/, '')})`;
      });
      const areAlike = new Set(several.map(({ slip }) => readAndMeant(bench, slip)[0])).size === 1;
      const orTwice = areAlike ? '; they read alike, so it may also be one line written down twice' : '';
      const message = `${tube.label}: one of its readings is probably misread: ${told.join(', or ')}. Read them again${orTwice}.`;
      return [{ step: 'unknown', index: null, kind: 'slip', probability, message }];
    }
    case 'beyond-the-curve': {
      const { index, what } = finding;
      const texts = tube.lines.find((line) => line.index === index)?.texts ?? [];
      const message = `${tube.label}, reading ${index + 1}: ${texts.join(', ')} lies beyond everything that can be seen on this bench. Read it again, or was it typed wrongly?`;
      return [{ step: 'unknown', index, kind: what, probability: 1, message }];
    }
    case 'all-beyond-the-curve': {
      const message = `${tube.label}: not one of its ${finding.readings} readings lies where light can be seen on this bench: is the central image right, and does the calibration belong to these readings?`;
      return [{ step: 'unknown', index: null, kind: 'beyond-the-curve', probability: 1, message }];
    }
    case 'central-apart':
      return [
        {
          step: 'central',
          index: null,
          kind: 'slip',
          probability: finding.found.probability,
          message: centralApartSentence(
            bench,
            finding.found,
            `${tube.label}: the readings of its central image`,
          ),
        },
      ];
    case 'colours': {
      const { noted, contradicting } = finding;
      const { index, colour, wavelengthNm } = contradicting[0]!;
      const message = `${tube.label}: ${contradicting.length} of ${noted} colours noted are not those of the lines they fit (reading ${index + 1}: "${colour}" at ${wavelengthNm.toFixed(0)} nm): do the colours belong to these readings, and the readings to this tube?`;
      return [{ step: 'unknown', index: null, kind: 'colours', probability: 1, message }];
    }
    case 'room-light': {
      const { from, nm, readings } = finding;
      const which = readings.map(
        ({ index, wavelengthNm }) => `reading ${index + 1} (${wavelengthNm.toFixed(1)} nm)`,
      );
      const [fit, are] = readings.length === 1 ? ['fits', 'is it'] : ['fit', 'are they'];
      const message = `${tube.label}: ${which.join(' and ')} ${fit} no line of the likeliest tube: ${are} light of ${from} (${nm.map((each) => each.toFixed(1)).join(', ')} nm), or is the tube such a lamp itself?`;
      return [{ step: 'unknown', index: null, kind: 'room-light', probability: null, message }];
    }
    // Remarks, no doubts: nothing need be wrong with a reading.
    case 'read-again':
    case 'seen-and-not-seen':
      return [];
    case 'moved':
      return central('moved-central', finding.probability, movedSentence(bench, finding));
    case 'central-misread':
      return central(finding.what, finding.probability, misreadSentence(bench, finding.alternatives));
    case 'central-differs':
      return central('moved-central', finding.probability, differsSentence(bench, finding));
  }
}

/** Code of the warning that some readings are of one line. */
export const READ_TWICE = 'read-twice';

/** Readings left over, each with the one that it reads like. */
export function readAgainPairs(
  findings: readonly TubeFinding[],
): Extract<TubeFinding, { what: 'read-again' }>['pairs'] {
  return findings.flatMap((finding) => (finding.what === 'read-again' ? finding.pairs : []));
}

/** Readings of one line under two numbers; null where there are none. */
export function readAgainWarning(tube: UnknownTube, findings: readonly TubeFinding[]): Warning | null {
  const pairs = readAgainPairs(findings);
  if (pairs.length === 0) return null;
  const named = pairs.map(({ index, of }) => `${index + 1} like ${of + 1}`);
  const message = `${tube.label}: some readings read alike, and only one of two is matched with a line (reading ${named.join(', ')}): where one line was read twice, write it as one line with two readings, so that it counts as one; where it was a close pair, leave it.`;
  return { code: READ_TWICE, message };
}

function movedSentence(
  bench: Bench,
  { shift, only, isBack }: Extract<TubeFinding, { what: 'moved' }>,
): string {
  const { method } = bench;
  const { value, u } = shift;
  const unit = method === 'scale' ? ' scale units' : "'";
  // Of a mean of two.
  const times = only === null ? 1 : 2;
  const rounded = roundWithUncertainty(Math.abs(times * value), times * u);
  const by = `${rounded.value}${unit} (uncertainty ${rounded.u}${unit})`;
  const [more, less, what, again] = MOVED[method];
  if (only !== null) {
    const [here, there, both] = ONLY[only];
    return `${here} all its readings lie ${by} further ${value > 0 ? 'out' : 'in'} than the calibration puts the lines, and ${there} they do not: were they all misread alike, or was something moved there between lamp and tube? Read a line of the tube and one of the known lamp again ${both}.`;
  }
  const lie = `all its readings lie ${by} ${value > 0 ? more : less} than the calibration puts the lines`;
  if (isBack)
    return `${lie}, as they would where ${stoodBefore(bench)}: was it put back before the tube? ${again}`;
  return `${lie}: was ${what} moved between lamp and tube? ${again}`;
}

/** Readings that stand where the tube's record says that nothing was seen. */
export function notSeenWarnings(tube: UnknownTube, findings: readonly TubeFinding[]): Warning[] {
  return findings.flatMap((finding): Warning[] => {
    if (finding.what !== 'seen-and-not-seen') return [];
    const { index, place } = finding;
    const read = tube.lines.find((line) => line.index === index)?.texts.join(', ') ?? '';
    const where = place.kind === 'wavelength' ? `${place.wavelengthNm} nm` : place.text;
    const message = `${tube.label}: reading ${index + 1} (${read}) is a line at the very place ${where} where nothing was seen ("notSeen"): the reading counts, and the place does not; take out what is wrong.`;
    return [{ code: finding.what, message }];
  });
}

const ONLY: Record<ReadingPartName, readonly [here: string, there: string, both: string]> = {
  'first-window': ['in the first window', 'in the second', 'in both windows'],
  'second-window': ['in the second window', 'in the first', 'in both windows'],
  left: ['on the left side', 'on the right', 'on both sides'],
  right: ['on the right side', 'on the left', 'on both sides'],
};

const MOVED: Record<Bench['method'], readonly [more: string, less: string, what: string, again: string]> = {
  central: [
    'further from the central image',
    'nearer to the central image',
    'the bench, the slit or the table',
    'Read the central image again, and a line of the known lamp.',
  ],
  'both-sides': [
    'further apart',
    'nearer together',
    'the bench, the slit or the table',
    'Read a line of the known lamp again.',
  ],
  scale: [
    'higher',
    'lower',
    'the scale or drum, the slit or the prism',
    'Read a line of the known lamp again.',
  ],
};

/** `the bench stood for helium`: before it was moved between two lamps. */
function stoodBefore(bench: Bench): string {
  return `the bench stood for ${lampsOf(bench, bench.moved!)[0]}`;
}

function differsSentence(
  bench: Bench,
  { apartArcmin, u, misread, isBack }: Extract<TubeFinding, { what: 'central-differs' }>,
): string {
  const by = `${Math.abs(apartArcmin).toFixed(1)}' (uncertainty ${u.toFixed(1)}')`;
  if (isBack && !misread)
    return `its central image stands ${by} from where the last known lamp has it, and where ${stoodBefore(bench)}: was it put back before the tube?`;
  const differ = `its central image differs from the calibration's by ${by}: the bench was moved between lamp and tube`;
  return misread ? `even so, ${differ}.` : `${differ}, or one of the two is misread.`;
}

/** From this part of a hypothesis on one alternative speaks for it. */
const SPEAKS_ALONE = 0.8;

function misreadSentence(bench: Bench, alternatives: readonly MisreadAlternative[]): string {
  const total = sumOf(alternatives, ({ probability }) => probability);
  const [first, second] = alternatives;
  const alone = second === undefined || first!.probability >= SPEAKS_ALONE * total;
  const told = alone
    ? misreadText(bench, first!)
    : `either ${misreadText(bench, first!)}, or ${misreadText(bench, second)}`;
  return `its readings fit better if the central image was misread: ${told}. Read the central image again.`;
}

/** So many readings are named; of more the number is said. */
const MOST_NAMED = 2;

function misreadText(bench: Bench, { misread }: MisreadAlternative): string {
  if (misread.length === 0) return 'none of its readings';
  const text = (deg: number): string => formatAngle(deg, bench.leastCount);
  const named = misread.slice(0, MOST_NAMED).map(({ readBy, readingDeg, corrected }) => {
    const whose = readBy === 'tube' ? "the tube's" : "the calibration's";
    const instead = corrected
      ? ` for ${text(corrected.readingDeg)} (${causeText(bench, corrected.cause).replace(/ \(.*\)/, '')})`
      : '';
    return `${whose} ${text(readingDeg)}${instead}`;
  });
  const more = misread.length - named.length;
  return `${named.join(' and ')}${more > 0 ? ` and ${more} more` : ''}`;
}
