/** What became of a known line, asked in one place. */
import type { KnownLineStatus } from './types.ts';

export interface WithStatus {
  readonly status: KnownLineStatus;
}

/** Is the reading in the curve as it was read, under the name given or another? */
export function isUsedAsRead({ status }: WithStatus): boolean {
  return status === 'used' || status === 'reassigned';
}
