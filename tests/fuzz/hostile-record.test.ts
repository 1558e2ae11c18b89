import { quick } from './budget.ts';
import { describeHostileRecords } from './hostile-record.ts';

describeHostileRecords(quick);
