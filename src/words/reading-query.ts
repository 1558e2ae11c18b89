/** A reading that looks odd, as data and as the question put to the person who typed it. */
import { formatDeviation } from '../angle/format-angle.ts';
import type { KnownLineFinding } from '../calibrate/findings.ts';
import type { ReadingAlternative } from '../observe/slip-hypotheses.ts';
import type { Bench, KnownBenchLine } from '../record/bench.ts';
import { amountText } from './amount-text.ts';
import { causeText, slipSentence } from './slip-text.ts';

/** What the calibration finds of a known line that may be wrong. */
export type LineFault = Extract<KnownLineFinding, { probability: number }>;

/** A known line of the record that the new reading casts doubt on. */
export interface FaultElsewhere {
  readonly line: KnownBenchLine;
  readonly fault: LineFault;
}

/** Against other readings of the same thing. */
export type RepeatQuery =
  /** Far from every reading of the same thing, on a circle; `apartArcmin`: from the nearest. */
  | { readonly what: 'apart'; readonly apartArcmin: number; readonly from: string }
  /** Where line number `line` of the same tube was read; counted from 0. */
  | { readonly what: 'same-place'; readonly line: number };

/** Against the bench as it is calibrated. */
export type BenchQuery =
  /** A known line that the calibration, with this reading in it, would not take as it is. */
  | {
      readonly what: 'off-curve';
      readonly wavelengthNm: number;
      /** From the curve, in the ordinate's unit; null where the reading is a part of that curve. */
      readonly off: number | null;
      readonly fault: LineFault;
    }
  /** With this reading another known line is at fault, and this one is not. */
  | { readonly what: 'fault-elsewhere'; readonly other: FaultElsewhere }
  /** This reading or another known line. */
  | { readonly what: 'either'; readonly other: FaultElsewhere }
  /** No eye sees a line there; `wavelengthNm` null beyond what the curve reaches; `slip`: what would bring it in sight. */
  | {
      readonly what: 'out-of-sight';
      readonly wavelengthNm: number | null;
      readonly slip: ReadingAlternative | null;
    }
  /** Its two sides or its windows do not go together as those of the other lines do. */
  | { readonly what: 'misread-part'; readonly slip: ReadingAlternative };

/** Asks about a reading that lies apart from its repeats, or at the place of another line. */
export function repeatSentence(query: RepeatQuery): string {
  return query.what === 'apart'
    ? `That is ${angleText(query.apartArcmin)} from ${query.from}, read before.`
    : `That is the place of line ${query.line + 1} again; a repeat of it is typed on its own row (the up arrow, while nothing is typed).`;
}

/** The question in one or two sentences. */
export function querySentence(bench: Bench, query: BenchQuery): string {
  switch (query.what) {
    case 'off-curve': {
      const { off, wavelengthNm, fault } = query;
      const cause = faultCause(bench, fault);
      if (off === null)
        return `Is that ${wavelengthNm.toFixed(1)} nm: ${cause || 'misread'}? Its chance is ${Math.round(100 * fault.probability)} %.`;
      const where = `That is ${distanceText(bench, off)} from where ${wavelengthNm.toFixed(1)} nm should be`;
      return cause === '' ? `${where}.` : `${where}: ${cause}?`;
    }
    case 'fault-elsewhere':
    case 'either': {
      const [line, cause] = [lineText(query.other), faultCause(bench, query.other.fault)];
      const why = cause === '' ? '.' : `: ${cause}?`;
      return query.what === 'either'
        ? `This reading and ${line} do not go together${why} Read both again.`
        : `This reading fits, and ${line} does not${why} Read that one again.`;
    }
    case 'out-of-sight': {
      const { wavelengthNm, slip } = query;
      const place =
        wavelengthNm === null
          ? 'No visible light falls there on this bench.'
          : `That would be ${wavelengthNm.toFixed(0)} nm, which no eye sees.`;
      return slip === null ? place : `${place} ${slipSentence(bench, slip)}`;
    }
    case 'misread-part':
      return slipSentence(bench, query.slip);
  }
}

/** What probably happened, to be asked; "" where it has no name. */
function faultCause(bench: Bench, fault: LineFault): string {
  if ('slip' in fault && fault.slip !== null) return causeText(bench, fault.slip.cause);
  return 'wavelengthNm' in fault && fault.wavelengthNm !== null
    ? `is it ${fault.wavelengthNm.toFixed(2)}`
    : '';
}

/** `the line named 435.83 (230°56')`. */
function lineText({ line: { index, statedWavelengthNm, texts } }: FaultElsewhere): string {
  const named =
    statedWavelengthNm === null ? `known line ${index + 1}` : `the line named ${statedWavelengthNm}`;
  return texts[0] === undefined ? named : `${named} (${texts[0]})`;
}

/** `33.1'`, from a degree on `1°05'`; of a scale in its units. */
function distanceText({ method }: Bench, distance: number): string {
  return method === 'scale' ? amountText(distance, 'scale') : angleText(distance);
}

function angleText(arcmin: number): string {
  return arcmin < 60 ? `${Number(arcmin.toFixed(1))}'` : formatDeviation(arcmin / 60, 1);
}
