/** Everything that can happen to the bench screen. */
import type { BenchForm } from './form.ts';
import type { ReportOutcome } from './report-file.ts';
import type { AnalysisOfForm, Keeping, Notice, PickPurpose } from './state.ts';

export type Action =
  | { readonly type: 'insert'; readonly text: string }
  | { readonly type: 'erase' }
  | { readonly type: 'erase-forward' }
  | { readonly type: 'clear' }
  | { readonly type: 'caret'; readonly to: 'left' | 'right' | 'start' | 'end' }
  | { readonly type: 'recall' }
  | { readonly type: 'enter' }
  | { readonly type: 'escape' }
  /** `isCut`: there was more of it. */
  | { readonly type: 'paste'; readonly text: string; readonly isCut: boolean }
  | { readonly type: 'take-suggestion' }
  | { readonly type: 'other-decimals' }
  | { readonly type: 'move'; readonly by: number }
  | { readonly type: 'stage'; readonly by: number }
  | { readonly type: 'sibling'; readonly by: number }
  | { readonly type: 'repeat' }
  | { readonly type: 'edit' }
  | { readonly type: 'remove' }
  | { readonly type: 'check' }
  | { readonly type: 'set-aside' }
  | { readonly type: 'insist' }
  | { readonly type: 'pass-over' }
  | { readonly type: 'take-names' }
  | { readonly type: 'brightness' }
  | { readonly type: 'complete' }
  | {
      readonly type: 'write';
      readonly what: 'note' | 'label' | 'not-seen' | 'quick-check' | 'tube-central' | 'save-as' | 'report';
    }
  | { readonly type: 'look' }
  | { readonly type: 'take-in-hand' }
  /** `query`: what of the name is already typed. */
  | { readonly type: 'pick'; readonly purpose: PickPurpose; readonly query?: string }
  | { readonly type: 'undo' }
  | { readonly type: 'redo' }
  | { readonly type: 'help' }
  | { readonly type: 'picture' }
  | { readonly type: 'palette' }
  | { readonly type: 'bell' }
  | { readonly type: 'quit'; readonly surely: boolean }
  | { readonly type: 'keep-mine' }
  | { readonly type: 'take-theirs' }
  | { readonly type: 'take-over' }
  | {
      readonly type: 'analysed';
      readonly result: AnalysisOfForm;
    }
  | {
      readonly type: 'kept';
      readonly keeping: Keeping;
      readonly notice: Notice | null;
      readonly fileName: string;
    }
  | { readonly type: 'report-done'; readonly path: string; readonly outcome: ReportOutcome }
  | { readonly type: 'changed-outside'; readonly theirs: BenchForm | null }
  | { readonly type: 'ranking-seen'; readonly tube: number };
