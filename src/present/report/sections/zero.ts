/** Where the deviations count from. */
import type { Bench } from '../../../record/bench.ts';
import { settingText } from './reading-text.ts';

export function zeroSentence(bench: Bench): string {
  if (bench.method === 'scale')
    return 'The scale has no zero of deviation; its readings are used as they are.';
  if (bench.method === 'both-sides')
    return 'Each deviation is half the angle between the readings on the two sides, so no reading of the central image is needed.';
  const central = bench.central.map((setting) => settingText(setting, bench)).join('; ');
  return `Central image: ${central === '' ? 'not read' : central}. A deviation is the reading of the line minus this one, shown positive.`;
}
