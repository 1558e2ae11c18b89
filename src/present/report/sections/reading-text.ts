/** Readings written out where the record's own text is not kept: central images, places looked at. */
import { formatAngle } from '../../../angle/format-angle.ts';
import type { Bench, Setting } from '../../../record/bench.ts';

/** `231°26'`, two windows with a slash between, `left A, right B`; the number of a scale. */
export function settingText(setting: Setting, bench: Bench): string {
  const windows = (values: readonly number[]): string =>
    values
      .map((value) => (bench.method === 'scale' ? String(value) : formatAngle(value, bench.leastCount)))
      .join(' / ');
  return setting.kind === 'one-side'
    ? windows(setting.windows)
    : `left ${windows(setting.left)}, right ${windows(setting.right)}`;
}
