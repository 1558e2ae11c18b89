import { describeHostileScreen } from './hostile-screen.tsx';

describeHostileScreen({ texts: 5, screens: 1 });
