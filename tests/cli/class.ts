/** An invented class of 24 records: what is in them is known, so what verify should say is known too. */
import { InventedObserver, type InventedPrism } from '../examples/invented-bench.ts';

export interface ClassRecord {
  readonly name: string;
  readonly record: object;
  /** The tube that the instructor expects. */
  readonly expected: string;
  readonly outcome: 'supported' | 'contradicted' | 'insufficient';
  /** The step and kinds that may be blamed, any one of them; null: nothing is wrong. */
  readonly blame: {
    readonly step: readonly string[];
    readonly kind: readonly string[];
    readonly index?: number;
  } | null;
}

const lamps = {
  mercury: [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75],
  helium: [447.15, 471.31, 492.19, 501.57, 587.56, 667.82, 706.52],
  'mercury-cadmium': [404.66, 435.83, 467.81, 479.99, 508.58, 546.07, 576.96, 579.07, 643.85],
} as const;

const tubes: Readonly<Record<string, readonly number[]>> = {
  neon: [540.06, 585.25, 594.48, 603, 614.31, 626.65, 640.22, 650.65, 667.83],
  helium: [447.15, 471.31, 492.19, 501.57, 587.56, 667.82, 706.52],
  krypton: [427.4, 431.96, 446.37, 450.24, 557.03, 587.09],
  argon: [415.86, 420.07, 427.22, 430.01, 433.36, 451.07, 603.21, 696.54, 706.72],
  mercury: [404.66, 435.83, 491.61, 546.07, 576.96, 579.07],
  cadmium: [467.81, 479.99, 508.58, 643.85],
  hydrogen: [434.05, 486.13, 656.28],
};

const prisms: readonly InventedPrism[] = ['F2', 'SF5', 'LLF1', 'SF10'].map((glass, at) => ({
  glass,
  apexAngleDeg: 60,
  centralDeg: 17.3 + 90 * at,
  leastCountArcmin: 1,
  settingScatterArcmin: 0.5,
}));

interface Plan {
  readonly lamp: keyof typeof lamps;
  readonly tube: keyof typeof tubes;
  readonly expected?: string;
  readonly answer?: string;
  readonly outcome?: ClassRecord['outcome'];
  readonly blame?: ClassRecord['blame'];
  /** Arc-minutes added to the reading of this known line. */
  readonly knownSlip?: readonly [index: number, arcmin: number];
  /** This known line is called by another's wavelength. */
  readonly misnamed?: readonly [index: number, calledNm: number];
  /** Arc-minutes added to every line of the tube. */
  readonly shift?: number;
  readonly unknownSlip?: readonly [index: number, arcmin: number];
  readonly linesRead?: number;
}

const slip = (index: number) => ({ step: ['known'], kind: ['slip', 'set-aside'], index });
const neighbour = (index: number) => ({
  step: ['known'],
  kind: ['neighbour', 'slip', 'reassigned', 'set-aside'],
  index,
});
const moved = {
  step: ['central', 'unknown'],
  kind: ['moved-central', 'shifted', 'central-misread', 'moved'],
};
const conclusion = { step: ['answer'], kind: ['wrong-conclusion'] };
const fewLines = { step: ['unknown'], kind: ['too-few-lines'] };

const plans: readonly Plan[] = [
  { lamp: 'mercury', tube: 'neon', answer: 'neon' },
  { lamp: 'mercury', tube: 'helium', answer: 'He' },
  { lamp: 'helium', tube: 'mercury', answer: 'mercury' },
  { lamp: 'mercury-cadmium', tube: 'krypton' },
  { lamp: 'mercury-cadmium', tube: 'argon' },
  { lamp: 'mercury', tube: 'hydrogen', answer: 'hydrogen' },
  { lamp: 'helium', tube: 'cadmium' },
  { lamp: 'mercury-cadmium', tube: 'neon', answer: 'neon' },
  { lamp: 'mercury', tube: 'neon', knownSlip: [1, -30], blame: slip(1) },
  { lamp: 'mercury', tube: 'helium', knownSlip: [3, 30], blame: slip(3) },
  { lamp: 'mercury-cadmium', tube: 'krypton', knownSlip: [4, 60], blame: slip(4) },
  { lamp: 'helium', tube: 'mercury', knownSlip: [2, -60], blame: slip(2) },
  { lamp: 'helium', tube: 'cadmium', misnamed: [0, 471.31], blame: neighbour(0) },
  { lamp: 'mercury-cadmium', tube: 'neon', misnamed: [3, 467.81], blame: neighbour(3) },
  { lamp: 'mercury-cadmium', tube: 'helium', misnamed: [8, 576.96], blame: neighbour(8) },
  { lamp: 'mercury', tube: 'neon', answer: 'argon', blame: conclusion },
  { lamp: 'mercury-cadmium', tube: 'krypton', answer: 'xenon', blame: conclusion },
  { lamp: 'mercury', tube: 'neon', shift: 12, blame: moved },
  { lamp: 'mercury-cadmium', tube: 'helium', shift: -15, blame: moved },
  { lamp: 'mercury', tube: 'helium', expected: 'neon', outcome: 'contradicted' },
  { lamp: 'mercury-cadmium', tube: 'cadmium', expected: 'krypton', outcome: 'contradicted' },
  { lamp: 'mercury', tube: 'helium', linesRead: 1, outcome: 'insufficient', blame: fewLines },
  { lamp: 'mercury', tube: 'argon', linesRead: 1, outcome: 'insufficient', blame: fewLines },
  {
    lamp: 'mercury',
    tube: 'helium',
    unknownSlip: [4, 30],
    blame: { step: ['unknown'], kind: ['slip'], index: 4 },
  },
];

export const classOf24: readonly ClassRecord[] = plans.map((plan, at) => {
  const observer = new InventedObserver(prisms[at % prisms.length]!, 1000 + at);
  const tubeLines = tubes[plan.tube]!.slice(0, plan.linesRead);
  const slipOf = (slipped: readonly [number, number] | undefined, index: number) =>
    slipped?.[0] === index ? slipped[1] : 0;
  return {
    name: `bench-${String(at + 1).padStart(2, '0')}.json`,
    expected: plan.expected ?? plan.tube,
    outcome: plan.outcome ?? 'supported',
    blame: plan.blame ?? null,
    record: {
      whichgas: 1,
      instrument: { method: 'central', leastCount: "1'", scaleDivision: "30'" },
      central: [observer.central(), observer.central()],
      known: {
        lamp: plan.lamp,
        lines: lamps[plan.lamp].map((wavelengthNm, index) => ({
          wavelengthNm: plan.misnamed?.[0] === index ? plan.misnamed[1] : wavelengthNm,
          readings: [observer.line(wavelengthNm, slipOf(plan.knownSlip, index))],
        })),
      },
      unknown: {
        lines: tubeLines.map((wavelengthNm, index) => ({
          readings: [observer.line(wavelengthNm, (plan.shift ?? 0) + slipOf(plan.unknownSlip, index))],
        })),
        ...(plan.answer === undefined ? {} : { answer: plan.answer }),
      },
    },
  };
});
