import { describeRandomKeys } from './random-keys.ts';

describeRandomKeys({ sequences: 40, longest: 40 });
