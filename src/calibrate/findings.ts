/** What looks wrong with a calibration, as data; `words` says it. */
import type { CentralApart } from '../observe/central-list.ts';
import type { ReadingAlternative } from '../observe/slip-hypotheses.ts';
import type { LampMove } from '../record/bench.ts';

/** Of one known line. `probability`: that it is so. */
export type KnownLineFinding =
  /** A raw reading behind it is misread. */
  | { readonly what: 'slip'; readonly probability: number; readonly slip: ReadingAlternative }
  /** It is another line of the lamp; `fit`: how far from the curve at that line, in the ordinate's unit. */
  | {
      readonly what: 'neighbour';
      readonly probability: number;
      readonly wavelengthNm: number;
      readonly fit: number | null;
    }
  /** Wrong for no reason that has a name; `off`: from the curve, in the ordinate's unit. */
  | { readonly what: 'set-aside'; readonly probability: number; readonly off: number | null }
  /** Used as it stands, though this is likely enough to be mentioned. */
  | {
      readonly what: 'perhaps';
      readonly probability: number;
      readonly fault: 'slip' | 'neighbour' | 'set-aside' | 'assigned';
      readonly slip: ReadingAlternative | null;
      readonly wavelengthNm: number | null;
    }
  /** The record leaves it out. */
  | { readonly what: 'left-out' }
  | { readonly what: 'no-deviation' };

/** Of the known lines or the central image as a whole. */
export type CalibrationFinding =
  | { readonly what: 'known-line'; readonly index: number; readonly finding: KnownLineFinding }
  | {
      readonly what: 'wrong-lamp';
      readonly probability: number;
      readonly lampIndex: number;
      readonly takenFor: string;
    }
  /** The bench was moved between two lamps; `shownBy`: tubes whose own central image stands accordingly, by position. */
  | {
      readonly what: 'lamp-moved';
      readonly probability: number;
      readonly move: LampMove;
      readonly shownBy: readonly number[];
      /** By how much more than is usual the lines scatter even so; null where not by so much that one move is too few. */
      readonly leftScatter: number | null;
    }
  /** The lines lie so far from the central image that it was read in the opposite window. Geometry, no chance. */
  | { readonly what: 'opposite-window' }
  | { readonly what: 'central-apart'; readonly found: CentralApart }
  /** With both sides: the central image does not lie midway between them. */
  | {
      readonly what: 'central-off-middle';
      readonly probability: number;
      readonly readDeg: number;
      readonly middleDeg: number;
    }
  /** Known lines read again have moved, in the ordinate's unit. */
  | {
      readonly what: 'check-moved';
      readonly probability: number;
      readonly checks: number;
      readonly shift: number;
    };

/** What the known lines lack, or what a person should know of them as a whole. */
export type CalibrationRemark =
  | { readonly what: 'central-missing' }
  | { readonly what: 'too-few-known-lines'; readonly lines: number }
  | { readonly what: 'no-curve' }
  /** Longer wavelengths deviate more; where as on a grating, with so many lines per mm in the first order. */
  | { readonly what: 'rises-with-wavelength'; readonly linesPerMm: number | null }
  | { readonly what: 'few-known-lines'; readonly lines: number }
  /** The wavelengths as stated are another lamp's: a slip of the pen in the name, not of the eye. */
  | { readonly what: 'lamp-name'; readonly lampIndex: number; readonly substance: string }
  /** `tooManyForMoves`: a bench that was moved between its lamps would look so, and has not been looked for. */
  | { readonly what: 'large-scatter'; readonly times: number; readonly tooManyForMoves: boolean };

/** Why this curve: what a line left out of the fit is predicted to, root mean square in the ordinate's unit. */
export interface CurveChoice {
  readonly model: string;
  /** Of the curve that is used; null where no line can be spared. */
  readonly leaveOneOutRms: number | null;
  readonly lines: number;
  /** The best of the others, or that which it replaced. */
  readonly other: { readonly model: string; readonly leaveOneOutRms: number } | null;
}
