import { describeBenches } from '../fuzz/benches.ts';
import { soak } from '../fuzz/budget.ts';

describeBenches(soak);
