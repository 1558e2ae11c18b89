/** A complete record of an invented bench, as text and as an object to be changed in tests. */
export const sample = {
  whichgas: 1,
  title: 'Bench 2, afternoon',
  instrument: {
    method: 'central',
    leastCount: "1'",
    scaleDivision: "30'",
    windows: 1,
    prism: 'each-line',
    apexAngle: { value: "60°00'", u: "2'" },
  },
  central: ["181°04'", "181°05'"],
  known: {
    lamp: 'mercury',
    lines: [
      { wavelengthNm: 546.07, readings: ["229°39'"] },
      { wavelengthNm: 435.83, readings: ["231°26'"] },
      { readings: ["229°20'", "229°21'"], color: 'yellow' },
    ],
  },
  unknown: {
    label: 'tube C',
    central: ["181°04'"],
    lines: [
      { readings: ["228°52'"], color: 'red', brightness: 'strong', note: 'sharp' },
      { readings: ["229°17'"], color: 'yellow', brightness: 'strong' },
    ],
    notSeen: [{ reading: "231°26'" }, { wavelengthNm: 447.1 }],
    complete: false,
    shelf: ['helium', 'Ne', 'argon'],
    answer: 'neon',
  },
  about: { date: '2026-11-25', observers: ['A', 'B'], station: '2' },
};

type Step = string | number;

/** The sample's text with values put at places (undefined takes the key away). */
export function sampleWith(
  ...changes: readonly (readonly [path: readonly Step[], value: unknown])[]
): string {
  const copy = structuredClone(sample) as unknown as Record<Step, unknown>;
  for (const [path, value] of changes) {
    let parent = copy;
    for (const step of path.slice(0, -1)) parent = parent[step] as Record<Step, unknown>;
    const last = path.at(-1)!;
    if (value === undefined) delete parent[last];
    else parent[last] = value;
  }
  return JSON.stringify(copy, null, 2);
}
