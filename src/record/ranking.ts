/** Whether a record is an exercise, which keeps the possible tubes back until an answer is written. */
import type { BenchRecord } from './schema.ts';

type WithRanking = Pick<BenchRecord, 'ranking'> & {
  readonly known: readonly Pick<BenchRecord['known'][number], 'ranking'>[];
  readonly unknown: readonly Pick<BenchRecord['unknown'][number], 'ranking'>[];
};

/** What holds for every tube that says nothing of its own: of the record, or of the lamp that a station was prepared with. */
export function benchRanking({ ranking, known }: WithRanking): 'always' | 'after-answer' {
  return ranking ?? (known.some((lamp) => lamp.ranking === 'after-answer') ? 'after-answer' : 'always');
}

/** Is the bench, or any of its tubes, an exercise? */
export function isExercise(record: WithRanking): boolean {
  return (
    benchRanking(record) === 'after-answer' ||
    record.unknown.some(({ ranking }) => ranking === 'after-answer')
  );
}
