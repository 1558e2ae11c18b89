/** How far a reading is off a curve or a line: arc-minutes to a tenth, scale divisions to a tenth of the least count. */
import { signedText, unitMark } from '../../present/quantity-text.ts';
import type { Bench } from '../../record/bench.ts';

type Shape = Pick<Bench, 'method' | 'leastCount'>;

/** `+0.3`; a dash where it is not known. */
export function offNumber(off: number | null, bench: Shape): string {
  return signedText(off, offDecimals(bench));
}

/** `+0.3'`, `+0.03 units`. */
export function offText(off: number | null, bench: Shape): string {
  return `${offNumber(off, bench)}${unitMark(bench.method === 'scale' ? 'scale' : 'arcmin')}`;
}

export function offDecimals({ method, leastCount }: Shape): number {
  return method === 'scale' ? Math.max(1, Math.ceil(1 - Math.log10(leastCount) - 1e-9)) : 1;
}
