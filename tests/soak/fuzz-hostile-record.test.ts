import { soak } from '../fuzz/budget.ts';
import { describeHostileRecords } from '../fuzz/hostile-record.ts';

describeHostileRecords(soak);
