import { soak } from '../fuzz/budget.ts';
import { describeWriters } from '../fuzz/writers.ts';

describeWriters(soak);
