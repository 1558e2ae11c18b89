/** Circles and dials: where a wavelength stands, and how a reading is written. */
import { type Circle, circleOf } from '../../../src/angle/circle.ts';
import { formatAngle } from '../../../src/angle/format-angle.ts';
import type { InstrumentRecord } from '../../../src/record/schema.ts';
import type { Random } from '../random.ts';
import { eye, prisms } from './assumptions.ts';
import type { Optics } from './look.ts';
import { drawPrism, fixedAtNm, type GlassFamily, type Prism, tracedDeviationArcmin } from './prism.ts';

/** A unit is an arc-minute on a circle, a scale unit on a dial. */
export interface Instrument {
  readonly method: 'central' | 'both-sides' | 'scale';
  readonly windows: 1 | 2;
  readonly leastCount: number;
  readonly division: number;
  readonly record: InstrumentRecord;
  readonly optics: Optics;
  /** Deviation in arc-minutes, or the place on a dial. */
  readonly ordinate: (nm: number) => number;
  /** How much farther a line stands when its prism is so many degrees from minimum deviation, units. */
  readonly excess: (nm: number, missetDeg: number) => number;
  /** What is written for so many units. */
  readonly write: (units: number) => string | number;
}

export const wholeCircle = 360 * 60;

/** Linear between wavelengths 0.25 nm apart: the curvature of a dense flint makes that wrong by less than 0.001'. */
function tabulated(exact: (nm: number) => number): (nm: number) => number {
  const [fromNm, toNm, stepNm] = [370, 820, 0.25];
  const values = Array.from({ length: (toNm - fromNm) / stepNm + 2 }, (_, k) => exact(fromNm + k * stepNm));
  return (nm) => {
    const step = (Math.max(fromNm, Math.min(nm, toNm)) - fromNm) / stepNm;
    const index = Math.floor(step);
    return values[index]! + (values[index + 1]! - values[index]!) * (step - index);
  };
}

function opticsOf(random: Random, prism: Prism): Optics {
  const { medianArcmin, logSpread, fromArcmin, toArcmin } = eye.slit;
  const width = random.logNormal(medianArcmin, logSpread);
  return {
    deviationArcmin: tabulated((nm) => tracedDeviationArcmin(prism, nm)),
    slitArcmin: Math.min(toArcmin, Math.max(fromArcmin, width)),
  };
}

type Sides = 'central' | 'two windows' | 'both-sides' | 'both-sides, two windows';
const sidesMet = [
  { weight: 0.55, sides: 'central' },
  { weight: 0.15, sides: 'two windows' },
  { weight: 0.22, sides: 'both-sides' },
  { weight: 0.08, sides: 'both-sides, two windows' },
] as const satisfies readonly { weight: number; sides: Sides }[];

function drawCircle(random: Random, family: GlassFamily, circle: Circle): Instrument {
  const { sides } = random.pickWeighted(sidesMet);
  const method = sides.startsWith('both-sides') ? 'both-sides' : 'central';
  const windows = sides.endsWith('two windows') ? 2 : 1;
  const isFixed = method === 'central' && random.chance(prisms.fixedChance);
  const prism = drawPrism(random, family, isFixed);
  const optics = opticsOf(random, prism);
  const { leastCountArcmin: leastCount, scaleDivisionArcmin: division, decimal } = circle;
  return {
    method,
    windows,
    leastCount,
    division,
    record: {
      method,
      leastCount: decimal
        ? `${leastCount / 60}°`
        : leastCount < 1
          ? `${Math.round(leastCount * 60)}"`
          : `${leastCount}'`,
      ...(windows === 2 ? { windows } : {}),
      ...(isFixed ? { prism: 'fixed', setAtNm: fixedAtNm } : {}),
    },
    optics,
    ordinate: optics.deviationArcmin,
    excess: (nm, missetDeg) =>
      isFixed ? 0 : tracedDeviationArcmin(prism, nm, missetDeg) - tracedDeviationArcmin(prism, nm),
    write: (units) => formatAngle(units / 60, circle),
  };
}

const circles = {
  "5'": circleOf(5),
  "1'": circleOf(1),
  '30"': circleOf(0.5),
  "10'": circleOf(10),
  '0.1°': circleOf(6, { decimal: true }),
  '0.05°': circleOf(3, { decimal: true }),
} as const;
export type CircleName = keyof typeof circles;

/**
 * A dial is read in its own units. `printed`: a photographed scale seen beside the spectrum, which follows the prism
 * all but a few per cent. `divided`: a drum whose divisions are nearly linear in wavelength, by the numbers of a
 * published bench about 0.9 divisions per nm in the blue and 0.8 in the red. `nanometres`: a wavelength drum out of
 * adjustment.
 */
function drawDial(random: Random): Instrument {
  const optics = opticsOf(random, drawPrism(random, 'flint', false));
  const kind = random.pick(['printed', 'divided', 'nanometres'] as const);
  const [bend, twist] = [random.normal(), random.normal()];
  const nearlyLinear = (perNm: number, bendBy: number, twistBy: number) => (nm: number) => {
    const v = (nm - 550) / 150;
    return perNm * 150 * (v + (bendBy * v * v) / 2 + (twistBy * v * v * v) / 3);
  };
  const { deviationArcmin } = optics;
  const width = deviationArcmin(400) - deviationArcmin(700);
  const sign = random.sign();
  const zero = random.between(2, 5);
  const at = {
    printed: (nm: number) => {
      const v = (2 * (deviationArcmin(nm) - deviationArcmin(550))) / width;
      return zero + 10 + 7 * sign * (v + 0.03 * bend * v * v);
    },
    divided: nearlyLinear(sign * 0.85, 0.06 + 0.06 * bend, 0.04 * twist),
    nanometres: nearlyLinear(1, 0.02 * bend, 0.02 * twist),
  }[kind];
  const start = { printed: 0, divided: 400 + 50 * zero, nanometres: 550 + 10 * random.normal() }[kind];
  const leastCount = kind === 'printed' ? 0.1 : 1;
  return {
    method: 'scale',
    windows: 1,
    leastCount,
    division: 10 * leastCount,
    record: { method: 'scale', leastCount },
    optics,
    ordinate: tabulated((nm) => start + at(nm)),
    excess: () => 0,
    write: (units) => Number(units.toFixed(1)),
  };
}

const anyInstrument = [
  { weight: 0.28, name: "5'" },
  { weight: 0.3, name: "1'" },
  { weight: 0.15, name: '30"' },
  { weight: 0.04, name: "10'" },
  { weight: 0.05, name: '0.1°' },
  { weight: 0.05, name: '0.05°' },
  { weight: 0.13, name: 'dial' },
] as const;
const coarseInstrument = anyInstrument.filter(({ name }) => ["10'", '0.1°', '0.05°', 'dial'].includes(name));

export type InstrumentKind = CircleName | 'any' | 'coarse or dial';

export function drawInstrument(random: Random, family: GlassFamily, kind: InstrumentKind): Instrument {
  const name =
    kind === 'any'
      ? random.pickWeighted(anyInstrument).name
      : kind === 'coarse or dial'
        ? random.pickWeighted(coarseInstrument).name
        : kind;
  return name === 'dial' ? drawDial(random) : drawCircle(random, family, circles[name]);
}
