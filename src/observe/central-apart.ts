/** Central readings of one list that cannot all be the same setting. */

import { wrapDegrees } from '../angle/wrap.ts';
import type { Bench, Setting } from '../record/bench.ts';
import { NOTICED } from './assumptions.ts';
import { agreeingCentrals } from './central-image.ts';
import {
  type CentralKnowledge,
  chanceOfMisread,
  type MisreadCentral,
  misreadOfOneList,
} from './central-list.ts';
import { resolutionVariance } from './reading-variance.ts';

export interface CentralApart {
  readonly settings: readonly Setting[];
  /** Largest difference, arc-minutes. */
  readonly spreadArcmin: number;
  /** That at least one of them is misread. */
  readonly probability: number;
  /** The one that is, where the list tells. */
  readonly misread: MisreadCentral | null;
  /** Those that are no part of the mean. */
  readonly leftOut: readonly Setting[];
}

/** Null where the readings agree as repeats do. */
export function centralApart(
  bench: Bench,
  settings: readonly Setting[],
  knowledge: CentralKnowledge,
): CentralApart | null {
  const agreeing = agreeingCentrals(bench, settings);
  const leftOut = settings.filter((setting) => !agreeing.includes(setting));
  const spreadArcmin = spreadOf(settings);
  const u = Math.sqrt(2 * (resolutionVariance(bench.leastCount) + knowledge.settingVariance));
  const isApart = spreadArcmin >= NOTICED * u + bench.leastCount;
  if (!isApart && leftOut.length === 0) return null;
  return {
    settings,
    spreadArcmin,
    probability: chanceOfMisread(bench, settings, knowledge),
    misread: misreadOfOneList(bench, settings, knowledge),
    leftOut,
  };
}

function spreadOf(settings: readonly Setting[]): number {
  const [first, ...others] = settings.flatMap((setting) =>
    setting.kind === 'one-side' ? [setting.windows] : [],
  );
  if (first === undefined) return 0;
  const spreads = first.map((origin, window) => {
    const offs = others.map((windows) => 60 * wrapDegrees((windows[window] ?? origin) - origin));
    return Math.max(0, ...offs) - Math.min(0, ...offs);
  });
  return Math.max(...spreads);
}
