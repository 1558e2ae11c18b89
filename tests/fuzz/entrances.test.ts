import { quick } from './budget.ts';
import { describeEntrances } from './entrances.ts';

describeEntrances(quick);
