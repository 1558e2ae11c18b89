/** Readings of the central image that lie apart, in words. */
import { formatAngle } from '../angle/format-angle.ts';
import type { CentralApart } from '../observe/central-list.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { causeText } from './slip-text.ts';

/** `named`: what the sentence calls the readings. */
export function centralApartSentence(bench: Bench, found: CentralApart, named: string): string {
  const text = (direction: number): string => formatAngle(direction, bench.leastCount);
  const texts = (list: readonly Setting[], between: string): string =>
    list
      .flatMap((setting) => (setting.kind === 'one-side' ? [setting.windows.map(text).join(' / ')] : []))
      .join(between);
  const { settings, spreadArcmin, misread, leftOut } = found;
  const which =
    misread === null
      ? leftOut.length === 0
        ? 'was one of them misread, or the bench moved between them?'
        : `${leftOut.length > 1 ? 'some of them are' : 'one of them is'} misread.`
      : misread.corrected === null
        ? `${text(misread.readingDeg)} is probably misread.`
        : `${text(misread.readingDeg)} reads like ${text(misread.corrected.readingDeg)}: ${causeText(bench, misread.corrected.cause)}?`;
  const out =
    leftOut.length === 0
      ? ''
      : ` ${texts(leftOut, ' and ')} ${leftOut.length === 1 ? 'is' : 'are'} left out of their mean.`;
  return `${named} (${texts(settings, ', ')}) lie ${spreadArcmin.toFixed(1)}' apart, more than repeats do: ${which}${out} Read the central image again.`;
}
