/** Simulated readings as a person would write them. */
import type { Setting } from '../../src/record/bench.ts';
import type { Instrument } from './instrument.ts';

function formatReading(instrument: Instrument, value: number): string {
  if (instrument.method === 'scale') return String(Number(value.toFixed(3)));
  const seconds = Math.round(value * 3600);
  const [degrees, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return `${degrees}°${String(minutes).padStart(2, '0')}'${rest === 0 ? '' : `${String(rest).padStart(2, '0')}"`}`;
}

export function formatSetting(instrument: Instrument, setting: Setting): string {
  const join = (windows: readonly number[]) =>
    windows.map((value) => formatReading(instrument, value)).join(' / ');
  if (setting.kind === 'one-side') return join(setting.windows);
  return `left ${join(setting.left)} right ${join(setting.right)}`;
}
