import { describeHostileScreen } from '../fuzz/hostile-screen.tsx';

describeHostileScreen({ texts: 200, screens: 6 });
