/**
 * Whole simulated benches with the truth beside them: an independent forward code, from the glass to the record.
 * It shares with the program only the types, the line table and the glass constants.
 */
import type { Bench, BenchLine, Setting, UnknownTube } from '../../src/record/bench.ts';
import type { BenchPlan, BenchTruth, SimulatedBench } from './bench-plan.ts';
import { drawSeenLines, type Looking } from './discharge-tube.ts';
import { type Instrument, meanDeviationArcmin, type Planted, readCentral, readLine } from './instrument.ts';
import { drawReadLines, nameWrongly, otherLamp, visibleLampLines } from './known-lamp.ts';
import { drawPrism, minimumIncidenceDeg } from './prism.ts';
import type { Random } from './random.ts';
import { formatSetting } from './reading-text.ts';

/** Main-scale division of the usual circles: 1° for 5′, 30′ for 1′, 20′ for 30″ (common practice, no source). */
const divisionArcmin = { 5: 60, 1: 30, 0.5: 20 } as const;

function drawInstrument(random: Random, plan: BenchPlan): Instrument {
  const prism = drawPrism(random, plan.family);
  const method = plan.method ?? 'central';
  const prismSetting = plan.prism ?? (method === 'scale' ? 'fixed' : 'each-line');
  return {
    method,
    prismSetting,
    windows: plan.windows ?? 1,
    prism,
    leastCountArcmin: plan.leastCountArcmin,
    divisionArcmin: divisionArcmin[plan.leastCountArcmin],
    settingScatterArcmin: random.logNormal(plan.leastCountArcmin === 5 ? 1.2 : 0.6, 0.3),
    tickChance: 0.04,
    // One sees the image move by about the setting scatter while turning the prism: on flint at half a degree.
    missetDeg: random.logNormal(0.6, 0.3),
    centralDeg: random.between(0, 360),
    side: random.sign(),
    eccentricityArcmin: random.normal(0, 1.5),
    eccentricityPhaseDeg: random.between(0, 360),
    fixedIncidenceDeg: minimumIncidenceDeg(prism, random.pick([546.07, 589.3])) + random.normal(0, 0.3),
    scaleGain: random.sign() * random.pick([0.1, 1, 10]),
    scaleOffset: random.between(500, 2000),
    slipChance: plan.slipChance ?? 0,
  };
}

/** An observer: how faint a line may be, how close two may be, how many are written down. */
function drawLooking(random: Random, changes: Partial<Looking>): Looking {
  return {
    faintnessLimit: random.between(-3, -0.6),
    resolutionArcmin: random.logNormal(1.7, 0.45),
    prominenceScatter: 0.7,
    oddTubeChance: 0,
    omissionChance: 0.03,
    maximumLines: 10,
    cut: random.chance(0.8) ? 'brightest' : 'any',
    strayRate: 0.1,
    ...changes,
  };
}

function readRepeatedly(
  random: Random,
  instrument: Instrument,
  wavelengthNm: number,
  repeats: number,
  planted: Planted,
) {
  const readings = Array.from({ length: repeats }, (_, repeat) =>
    readLine(random, instrument, wavelengthNm, repeat === 0 ? planted : null),
  );
  return {
    settings: readings.map((reading) => reading.setting),
    texts: readings.map((reading) => formatSetting(instrument, reading.setting)),
    slips: readings.flatMap((reading) => reading.slips),
  };
}

function readCentralRepeatedly(random: Random, instrument: Instrument, repeats: number) {
  const readings = Array.from({ length: repeats }, () => readCentral(random, instrument));
  return {
    settings: readings.map((reading) => reading.setting),
    slips: readings.flatMap((reading) => reading.slips),
  };
}

const plainLine = (index: number, settings: readonly Setting[], texts: readonly string[]): BenchLine => ({
  index,
  settings,
  texts,
  colour: null,
  brightness: null,
  note: null,
  use: true,
});

/** The wavelengths read of the known lamp, the names given to them, and the fault that was possible. */
function nameKnownLines(
  random: Random,
  plan: BenchPlan,
  looking: Looking,
  deviationAt: (nm: number) => number,
) {
  const visible = visibleLampLines(plan.lamp, looking.resolutionArcmin, deviationAt);
  const readNm = drawReadLines(random, visible, random.whole(...(plan.knownLines ?? [5, 9])));
  const fault = plan.fault ?? null;
  if (fault === null || 'slip' in fault) return { readNm, statedNm: readNm, fault };
  const tableNm = visible.map((line) => line.wavelengthNm);
  const statedNm = nameWrongly(random, fault.naming, readNm, tableNm, plan.lamp);
  return { readNm, statedNm: statedNm ?? readNm, fault: statedNm === null ? null : fault };
}

/**
 * One bench. Deviations are exact (minimum deviation, or one setting of the prism for all lines); readings follow
 * the reading model: setting scatter, rounding to the vernier, now and then the tick beside, misset of the prism
 * (only ever larger deviations), eccentric circle, slips.
 */
export function simulateBench(random: Random, plan: BenchPlan): SimulatedBench {
  const instrument = drawInstrument(random, plan);
  const looking = drawLooking(random, plan.looking ?? {});
  const repeats = plan.repeats ?? 1;
  const deviationAt = (nm: number): number => meanDeviationArcmin(instrument, nm);
  const { readNm, statedNm, fault } = nameKnownLines(random, plan, looking, deviationAt);

  const usesCentral = instrument.method === 'central';
  const central = readCentralRepeatedly(random, instrument, usesCentral ? random.whole(1, 3) : 0);
  const slippedPosition = fault !== null && 'slip' in fault ? random.whole(0, readNm.length - 1) : -1;
  const known = readNm.map((nm, position) => {
    const planted = fault !== null && 'slip' in fault && position === slippedPosition ? fault.slip : null;
    return { nm, ...readRepeatedly(random, instrument, nm, repeats, planted) };
  });

  const seen = plan.tube ? drawSeenLines(random, plan.tube, looking, deviationAt) : [];
  const unknown = seen.map((line) => ({
    line,
    ...readRepeatedly(random, instrument, line.wavelengthNm, repeats, null),
  }));
  const isReread = usesCentral && random.chance(0.4);
  const rereadCentral = isReread ? readCentralRepeatedly(random, instrument, random.whole(1, 2)) : null;

  const tube: UnknownTube = {
    index: 0,
    label: 'tube 1',
    central: rereadCentral?.settings ?? null,
    lines: unknown.map(({ settings, texts }, index) => plainLine(index, settings, texts)),
    notSeen: [],
    complete: false,
    shelf: null,
    answer: null,
    answerBeforeRanking: null,
    ranking: 'always',
  };
  const lampName =
    fault !== null && 'naming' in fault && fault.naming === 'wrong-lamp' ? otherLamp(plan.lamp) : plan.lamp;
  const isScale = instrument.method === 'scale';
  const bench: Bench = {
    title: '',
    method: instrument.method,
    leastCount: plan.leastCountArcmin * (isScale ? Math.abs(instrument.scaleGain) : 1),
    scaleDivisionArcmin: isScale ? null : instrument.divisionArcmin,
    windows: instrument.windows,
    prism: instrument.prismSetting,
    setAtNm: null,
    apexAngle: null,
    central: central.settings,
    known: [
      {
        name: lampName,
        substances: [lampName],
        lines: known.map(({ settings, texts }, index) => ({
          ...plainLine(index, settings, texts),
          lampIndex: 0,
          statedWavelengthNm: statedNm[index]!,
          confirmed: false,
        })),
      },
    ],
    tubes: plan.tube ? [tube] : [],
    check: [],
    ranking: 'always',
    about: {},
  };
  const truth: BenchTruth = {
    instrument,
    deviationAt,
    substance: plan.tube?.substance ?? null,
    known: known.map(({ nm, slips }, index) => ({ wavelengthNm: nm, statedNm: statedNm[index]!, slips })),
    unknown: unknown.map(({ line, slips }) => ({ ...line, slips })),
    centralSlips: [...central.slips, ...(rereadCentral?.slips ?? [])],
    fault,
    looking,
  };
  return { bench, truth };
}
