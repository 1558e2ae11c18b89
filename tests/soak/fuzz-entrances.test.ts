import { soak } from '../fuzz/budget.ts';
import { describeEntrances } from '../fuzz/entrances.ts';

describeEntrances(soak);
