/** A finding as it is told to a person. */
type DoubtStep = 'central' | 'known' | 'unknown' | 'answer';

/** Something that looks wrong with a record: which step, which reading, what kind, and one sentence for a person. */
export interface Doubt {
  readonly step: DoubtStep;
  /** Index of the line, null when the whole step is meant. */
  readonly index: number | null;
  /** Stable, kebab-case: `slip`, `neighbour`, `wrong-lamp`, `moved-lamp`, `moved-central`, `moved`, `set-aside`, `too-few-lines` ... */
  readonly kind: string;
  /** Probability that it is so; null where it is no matter of chance. */
  readonly probability: number | null;
  readonly message: string;
}
