/** Readings written down to a coarser step than the instrument reads. */
import type { Bench } from '../record/bench.ts';

/** `step`: arc-minutes, or scale units. `whose`: `the known lines`, the label of a tube. */
export function roundedSentence({ method, leastCount }: Bench, whose: string, step: number): string {
  const text = (amount: number): string => {
    const rounded = Number(amount.toFixed(6));
    if (method === 'scale') return `${rounded}`;
    return amount >= 60 ? `${rounded / 60}°` : `${rounded}'`;
  };
  return `${whose}: all readings are multiples of ${text(step)}, on an instrument that reads ${text(leastCount)}: they are taken as rounded to that, and their uncertainty is larger. Write down what the instrument shows.`;
}
