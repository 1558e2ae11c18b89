/** The bundled example benches of the invented Harbour Lane teaching laboratory, by file name. */
import { InventedObserver, type InventedPrism } from './invented-bench.ts';

const flint: InventedPrism = {
  glass: 'F2',
  apexAngleDeg: 60,
  centralDeg: 181.07,
  leastCountArcmin: 1,
  settingScatterArcmin: 0.5,
};

const about = (station: string, lamp: string, tube: string) => ({
  date: '2026-10-06',
  observers: ['R. Adeyemi', 'L. Fenn'],
  station,
  lamp,
  tube,
  prism: `HL-P${station}`,
});

const known = (observer: InventedObserver, wavelengths: readonly number[]) =>
  wavelengths.map((wavelengthNm) => ({ wavelengthNm, readings: [observer.line(wavelengthNm)] }));

type Seen = readonly [wavelengthNm: number, color: string, brightness: string];

const seen = (observer: InventedObserver, lines: readonly Seen[]) =>
  lines.map(([wavelengthNm, color, brightness]) => ({
    readings: [observer.line(wavelengthNm)],
    color,
    brightness,
  }));

function clearBench() {
  const observer = new InventedObserver(flint, 2);
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 2, Tuesday afternoon',
    instrument: {
      method: 'central',
      leastCount: "1'",
      scaleDivision: "30'",
      apexAngle: { value: "60°00'", u: "2'" },
    },
    central: [observer.central(), observer.central()],
    known: {
      lamp: 'mercury',
      lines: known(observer, [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75]),
    },
    unknown: {
      label: 'tube C',
      lines: seen(observer, [
        [667.83, 'red', 'medium'],
        [650.65, 'red', 'strong'],
        [640.22, 'red', 'strong'],
        [626.65, 'red', 'medium'],
        [614.31, 'orange', 'strong'],
        [603, 'orange', 'medium'],
        [594.48, 'yellow', 'medium'],
        [585.25, 'yellow', 'strong'],
        [540.06, 'green', 'medium'],
      ]),
    },
    about: about('2', 'Hg 4', 'C'),
  };
}

function tooFewLines() {
  const observer = new InventedObserver(
    { ...flint, glass: 'N-BK7', leastCountArcmin: 5, settingScatterArcmin: 1, centralDeg: 90.2 },
    4,
  );
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 4, lamp failed half way',
    instrument: { method: 'central', leastCount: "5'" },
    central: [observer.central()],
    known: { lamp: 'mercury', lines: known(observer, [435.83, 546.07, 578]) },
    unknown: { label: 'tube A', lines: seen(observer, [[587.56, 'yellow', 'strong']]) },
    about: about('4', 'Hg 1', 'A'),
  };
}

function misreadVernier() {
  const observer = new InventedObserver({ ...flint, centralDeg: 205.4 }, 5);
  const lines = known(observer, [404.66, 435.83, 491.61, 546.07, 576.96, 579.07, 623.44, 690.75]);
  // Half a degree: one division of the main scale was missed.
  lines[1] = { wavelengthNm: 435.83, readings: [observer.line(435.83, -30)] };
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 5, one reading half a degree off',
    instrument: { method: 'central', leastCount: "1'", scaleDivision: "30'" },
    central: [observer.central(), observer.central()],
    known: { lamp: 'mercury', lines },
    unknown: {
      label: 'tube B',
      lines: seen(observer, [
        [706.52, 'deep red', 'weak'],
        [667.82, 'red', 'strong'],
        [587.56, 'yellow', 'strong'],
        [501.57, 'green', 'strong'],
        [492.19, 'blue-green', 'medium'],
        [471.31, 'blue', 'medium'],
        [447.15, 'violet', 'strong'],
      ]),
      answer: 'helium',
    },
    about: about('5', 'Hg 2', 'B'),
  };
}

function bothSides() {
  const observer = new InventedObserver(
    { ...flint, glass: 'SF10', leastCountArcmin: 0.5, settingScatterArcmin: 0.3, centralDeg: 152.31 },
    7,
  );
  const helium = [706.52, 667.82, 587.56, 501.57, 492.19, 471.31, 447.15];
  const tube: readonly Seen[] = [
    [656.28, 'red', 'strong'],
    [486.13, 'blue-green', 'strong'],
    [434.05, 'violet', 'medium'],
  ];
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 7, both sides of the slit',
    instrument: { method: 'both-sides', leastCount: '30"', scaleDivision: "20'" },
    known: {
      lamp: 'helium',
      lines: helium.map((wavelengthNm) => ({ wavelengthNm, readings: [observer.bothSides(wavelengthNm)] })),
    },
    unknown: {
      label: 'tube E',
      lines: tube.map(([wavelengthNm, color, brightness]) => ({
        readings: [observer.bothSides(wavelengthNm)],
        color,
        brightness,
      })),
      shelf: ['hydrogen', 'helium', 'neon', 'argon', 'krypton', 'mercury', 'nitrogen'],
    },
    about: about('7', 'He 1', 'E'),
  };
}

function drumScale() {
  const observer = new InventedObserver({ ...flint, settingScatterArcmin: 0.3 }, 9);
  const lamp = [643.85, 578, 546.07, 508.58, 479.99, 467.81, 435.83];
  const tube: readonly Seen[] = [
    [587.09, 'yellow', 'strong'],
    [557.03, 'green', 'strong'],
    [645.63, 'red', 'weak'],
    [450.24, 'blue', 'weak'],
    [446.37, 'violet', 'medium'],
    [431.96, 'violet', 'medium'],
    [427.4, 'violet', 'medium'],
  ];
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 9, spectroscope with a drum',
    instrument: { method: 'scale', leastCount: 0.1 },
    known: {
      lamp: 'mercury-cadmium',
      lines: lamp.map((wavelengthNm) => ({ wavelengthNm, readings: [observer.drum(wavelengthNm)] })),
    },
    unknown: {
      label: 'tube F',
      lines: tube.map(([wavelengthNm, color, brightness]) => ({
        readings: [observer.drum(wavelengthNm)],
        color,
        brightness,
      })),
    },
    about: about('9', 'HgCd 1', 'F'),
  };
}

function wronglyNamedLine() {
  const observer = new InventedObserver({ ...flint, centralDeg: 350.05 }, 11);
  const lines = known(observer, [706.52, 667.82, 587.56, 501.57, 492.19, 447.15]);
  // The violet line was taken for its blue neighbour at 471.31 nm.
  lines[5] = { wavelengthNm: 471.31, readings: [observer.line(447.15)] };
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 11, one known line wrongly named',
    instrument: { method: 'central', leastCount: "1'" },
    central: [observer.central()],
    known: { lamp: 'helium', lines },
    unknown: {
      label: 'tube G',
      lines: seen(observer, [
        [578, 'yellow', 'strong'],
        [546.07, 'green', 'strong'],
        [491.61, 'blue-green', 'weak'],
        [435.83, 'blue', 'strong'],
        [404.66, 'violet', 'medium'],
      ]),
      answer: 'mercury',
    },
    about: about('11', 'He 2', 'G'),
  };
}

function twoTubes() {
  const observer = new InventedObserver({ ...flint, glass: 'SF5', centralDeg: 120.5 }, 12);
  return {
    whichgas: 1,
    title: 'Harbour Lane, bench 12, two tubes on one calibration',
    instrument: { method: 'central', leastCount: "1'" },
    central: [observer.central()],
    known: {
      lamp: 'mercury-cadmium',
      lines: known(observer, [643.85, 579.07, 576.96, 546.07, 508.58, 479.99, 467.81, 435.83, 404.66]),
    },
    unknown: [
      {
        label: 'tube H',
        lines: seen(observer, [
          [667.82, 'red', 'strong'],
          [587.56, 'yellow', 'strong'],
          [501.57, 'green', 'strong'],
          [492.19, 'blue-green', 'medium'],
          [447.15, 'violet', 'strong'],
        ]),
      },
      {
        label: 'tube J',
        lines: seen(observer, [
          [656.28, 'red', 'strong'],
          [486.13, 'blue-green', 'strong'],
          [434.05, 'violet', 'medium'],
        ]),
      },
    ],
    about: about('12', 'HgCd 1', 'H, J'),
  };
}

export const examples: Readonly<Record<string, object>> = {
  'harbour-lane-bench-2.json': clearBench(),
  'harbour-lane-bench-4.json': tooFewLines(),
  'harbour-lane-bench-5.json': misreadVernier(),
  'harbour-lane-bench-7.json': bothSides(),
  'harbour-lane-bench-9.json': drumScale(),
  'harbour-lane-bench-11.json': wronglyNamedLine(),
  'harbour-lane-bench-12.json': twoTubes(),
};
