/** What looks wrong with a tube's readings, as data. */
import type { MisreadAlternative } from '../../observe/central-hypotheses.ts';
import type { CentralApart } from '../../observe/central-list.ts';
import type { ReadingAlternative } from '../../observe/slip-hypotheses.ts';
import type { ColourName, NotSeenPlace } from '../../record/bench.ts';
import type { CommonShift } from '../bench/common-shift.ts';
import type { ReadingPartName } from './shifted-part.ts';

/** Of one reading. */
export type ReadingFinding =
  /** One raw reading is likelier misread than not; `slip`: how, if the leading row is right. */
  | {
      readonly what: 'slip';
      readonly index: number;
      readonly probability: number;
      readonly slip: ReadingAlternative;
    }
  /** The reading lies where the curve has no wavelength: far from everything that can be seen on this bench. */
  | { readonly what: 'beyond-the-curve'; readonly index: number };

export type TubeFinding =
  | ReadingFinding
  /** One of these readings is likelier misread than not, none of them by itself; likeliest first. */
  | {
      readonly what: 'slip-of-several';
      readonly probability: number;
      readonly several: readonly { readonly index: number; readonly slip: ReadingAlternative }[];
    }
  /** All readings lie there, and it is not each that is wrong but what they share. */
  | { readonly what: 'all-beyond-the-curve'; readonly readings: number }
  /** A central reading of the tube's own lies apart from most and is no part of their mean, or two lie apart from each other. */
  | { readonly what: 'central-apart'; readonly found: CentralApart }
  /** Readings that fit no line of the leading row, and stand where lamps of a room have lines. */
  | {
      readonly what: 'room-light';
      /** Which lamps. */
      readonly from: string;
      readonly nm: readonly number[];
      readonly readings: readonly { readonly index: number; readonly wavelengthNm: number }[];
    }
  /** Readings that fit no line by themselves, and read as another reading does that fits one. Indexes of lines. */
  | {
      readonly what: 'read-again';
      readonly pairs: readonly { readonly index: number; readonly of: number }[];
    }
  /** A reading stands where the record says that nothing was seen. */
  | { readonly what: 'seen-and-not-seen'; readonly index: number; readonly place: NotSeenPlace }
  /** Colours noted that contradict the lines they are matched with, of so many noted. */
  | {
      readonly what: 'colours';
      readonly noted: number;
      readonly contradicting: readonly {
        readonly index: number;
        readonly colour: ColourName;
        readonly wavelengthNm: number;
      }[];
    }
  /**
   * All readings are shifted against the calibration, and no central reading says so. `isBack`: to where the bench stood
   * before it was moved between two lamps.
   */
  | {
      readonly what: 'moved';
      readonly probability: number;
      readonly shift: CommonShift;
      /** The window or side that alone is shifted, by twice as much; null: all of them. */
      readonly only: ReadingPartName | null;
      readonly isBack: boolean;
    }
  /** A reading of the central image is misread; `alternatives`: which, likeliest first. */
  | {
      readonly what: 'central-misread';
      readonly probability: number;
      readonly alternatives: readonly MisreadAlternative[];
    }
  /**
   * The central image read anew stands elsewhere, arc-minutes; `misread`: even with what is misread put right; `isBack`:
   * where it stood before the bench was moved between two lamps.
   */
  | {
      readonly what: 'central-differs';
      readonly probability: number;
      readonly apartArcmin: number;
      readonly u: number;
      readonly misread: boolean;
      readonly isBack: boolean;
    };
