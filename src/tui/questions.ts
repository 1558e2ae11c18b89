/** Questions that lie over the stage: their answers are chosen with the arrows and Enter. */
import type { Action } from './actions.ts';
import type { Overlay, ScreenState } from './state.ts';

interface Choice {
  readonly label: string;
  readonly action: Action;
}

export type Question = Extract<Overlay, { kind: 'quit' | 'changed-outside' }>;

export function isQuestion(overlay: Overlay | null): overlay is Question {
  return overlay?.kind === 'quit' || overlay?.kind === 'changed-outside';
}

/** The first is the one that loses nothing. */
export function choicesOf(question: Question, { keeping }: Pick<ScreenState, 'keeping'>): readonly Choice[] {
  if (question.kind === 'quit') {
    return [
      { label: 'stay', action: { type: 'escape' } },
      { label: 'leave, and lose it', action: { type: 'quit', surely: true } },
      ...(keeping.kind === 'memory-only'
        ? [{ label: 'keep the record in another place', action: { type: 'write', what: 'save-as' } } as const]
        : []),
    ];
  }
  return [
    {
      label: 'decide later; until then nothing is written to the file',
      action: { type: 'escape' },
    },
    {
      label: 'keep mine; the other version is kept beside it under another name',
      action: { type: 'keep-mine' },
    },
    ...(question.theirs === null
      ? []
      : [{ label: 'take theirs; mine is one undo away', action: { type: 'take-theirs' } } as const]),
  ];
}
