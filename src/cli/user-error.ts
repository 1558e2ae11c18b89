/** What a command can end with. */
export const exitCode = { done: 0, notSupported: 1, unusable: 2, programFault: 3 } as const;

export type ExitCode = (typeof exitCode)[keyof typeof exitCode];

/** A file or an argument that cannot be used: the person's to mend, so it carries sentences, never a stack. */
export class UserError extends Error {
  readonly sentences: readonly string[];

  constructor(...sentences: string[]) {
    super(sentences.join('\n'));
    this.sentences = sentences;
  }
}

/** A refusal of what is written at a place, with the place in front. */
export function atPlace<Value>(place: string, read: () => Value): Value {
  try {
    return read();
  } catch (error) {
    if (error instanceof UserError) throw new UserError(`${place}: ${error.message}`);
    throw error;
  }
}
