/** What is known of the prisms of stations: their calibration of another day, or their glass. */
import { analyseBench } from '../analysis/analyse.ts';
import { glassDeviationDeg } from '../analysis/predict.ts';
import type { StationOptics } from '../analysis/station-lines.ts';
import type { CalibrationCurve } from '../calibrate/types.ts';
import { readableNm } from '../lines/visible.ts';
import type { Bench } from '../record/bench.ts';
import { type GlassField, glassStation, noLight } from './glass-station.ts';
import { loadBench } from './load-bench.ts';
import type { PreparedStation } from './prepared-station.ts';
import { atPlace, shownName, UserError } from './user-error.ts';

export interface KnownOptics {
  readonly optics: StationOptics;
  /** In words, `the calibration of week-1.json`; "" where nothing is known. */
  readonly basis: string;
}

/** Each station with what is known of its prism; each calibration read once. Throws UserError. */
export async function withOptics<Station extends PreparedStation>(
  stations: readonly Station[],
): Promise<(Station & KnownOptics)[]> {
  const calibrations = new Map<string, Calibration>();
  const opticsOf = async (station: Station): Promise<KnownOptics> => {
    const { texts, placeOf } = station.row;
    const { calibration, glass, central } = texts;
    if (calibration !== null && glass !== null)
      throw new UserError(`${placeOf('glass')}: a calibration tells more than a glass; give one of the two`);
    if (central !== null && glass === null)
      throw new UserError(
        `${placeOf('central')}: the central image belongs to a glass, which is not named; without one leave it out`,
      );
    if (calibration === null)
      return glass === null ? { optics: { kind: 'unknown' }, basis: '' } : ofGlass(station, glass);
    const known = calibrations.get(calibration) ?? (await ofCalibration(calibration, placeOf('calibration')));
    calibrations.set(calibration, known);
    if ((known.bench.method === 'scale') !== (station.bench.method === 'scale')) {
      throw new UserError(
        `${placeOf('calibration')}: ${shownName(calibration)} is of another instrument: one of the two has a divided circle, the other a scale`,
      );
    }
    return { basis: known.basis, optics: onStation(known, station.bench) };
  };
  const found: (Station & KnownOptics)[] = [];
  for (const station of stations) found.push({ ...station, ...(await opticsOf(station)) });
  return found;
}

interface Calibration {
  readonly bench: Bench;
  readonly curve: CalibrationCurve;
  readonly basis: string;
}

/** A calibration as it is read on the station's own circle: its curve and zero are used, not its least count. */
function onStation({ bench, curve }: Calibration, station: Bench): StationOptics {
  const { method, leastCount, decimalCircle = false, windows } = station;
  return {
    kind: 'calibrated',
    bench: { ...bench, method, leastCount, decimalCircle, windows },
    curve,
    readable: method === bench.method && windows === bench.windows,
  };
}

async function ofCalibration(file: string, place: string): Promise<Calibration> {
  const { bench } = await loadBench(file).catch((error: unknown) => {
    return atPlace(place, () => {
      throw error;
    });
  });
  const { curve } = analyseBench({ ...bench, tubes: [] }).calibration;
  if (curve === null)
    throw new UserError(`${place}: ${shownName(file)} has too few known lines for a calibration`);
  return { bench, curve, basis: `the calibration of ${shownName(file)}` };
}

function ofGlass({ row, bench }: PreparedStation, glass: string): KnownOptics {
  const { texts, placeOf } = row;
  if (bench.method === 'scale')
    throw new UserError(`${placeOf('glass')}: a scale has no angles; name a calibration of another day`);
  if (texts.apex === null)
    throw new UserError(`${placeOf('glass')}: a glass needs the apex angle of the prism too, such as 60°`);
  const station = glassStation(
    { glass, apex: texts.apex, central: texts.central ?? '0', leastCount: texts.leastCount ?? '', side: 1 },
    (field: GlassField) => placeOf(field),
  );
  if (Object.values(readableNm).some((nm) => Number.isNaN(glassDeviationDeg(station, nm))))
    throw noLight(station, texts.apex, placeOf('apex'));
  const readable = bench.method === 'central' && texts.central !== null;
  return {
    optics: { kind: 'glass', glass: station, readable },
    basis: `${glass} of the catalogue, apex angle ${texts.apex}`,
  };
}
