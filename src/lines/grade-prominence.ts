/** What a word for the brightness of a line means as a prominence. */
import type { StatedGrade } from './brightness-file.ts';

/** Prominence of the grades: a grade is taken as a factor of about 3.7 (common practice, no source). */
export const gradeProminence: Readonly<Record<StatedGrade, number>> = {
  strong: 0,
  medium: -1.3,
  weak: -2.6,
  'very weak': -3.4,
};
