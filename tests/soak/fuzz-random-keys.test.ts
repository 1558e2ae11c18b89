import { describeRandomKeys } from '../fuzz/random-keys.ts';

describeRandomKeys({ sequences: 2000, longest: 60 });
