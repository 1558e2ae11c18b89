import { describeBenches } from './benches.ts';
import { quick } from './budget.ts';

describeBenches(quick);
