/** Everything that can happen to the bench screen. */
import type { BenchForm } from './form.ts';
import type { PlainAction } from './reduce.ts';
import type { ReportOutcome } from './report-file.ts';
import type { AnalysisOfForm, Keeping, Notice, PickPurpose } from './state.ts';

export type Action =
  | { readonly type: PlainAction }
  | { readonly type: 'insert'; readonly text: string }
  | { readonly type: 'caret'; readonly to: 'left' | 'right' | 'start' | 'end' }
  /** `isCut`: there was more of it. */
  | { readonly type: 'paste'; readonly text: string; readonly isCut: boolean }
  | { readonly type: 'move' | 'stage' | 'sibling'; readonly by: number }
  | {
      readonly type: 'write';
      readonly what: 'note' | 'label' | 'not-seen' | 'quick-check' | 'tube-central' | 'save-as' | 'report';
    }
  /** `query`: what of the name is already typed. */
  | { readonly type: 'pick'; readonly purpose: PickPurpose; readonly query?: string }
  | { readonly type: 'quit'; readonly surely: boolean }
  | { readonly type: 'analysed'; readonly result: AnalysisOfForm }
  | {
      readonly type: 'kept';
      readonly keeping: Keeping;
      readonly notice: Notice | null;
      readonly fileName: string;
    }
  | { readonly type: 'report-done'; readonly path: string; readonly outcome: ReportOutcome }
  | { readonly type: 'changed-outside'; readonly theirs: BenchForm | null }
  | { readonly type: 'ranking-seen'; readonly tube: number };
