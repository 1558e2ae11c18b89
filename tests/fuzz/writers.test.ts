import { quick } from './budget.ts';
import { describeWriters } from './writers.ts';

describeWriters(quick);
