/** A number given for a wavelength in nanometres that only makes sense in another unit. */
import { isReadable } from '../lines/visible.ts';

const UNITS = [
  { name: 'ångström', inNm: 0.1 },
  { name: 'µm', inNm: 1000 },
] as const;

/** A question with what the number would be in nanometres, or nothing where no unit makes it a line that is seen. */
export function otherUnitMeant(value: number): string {
  const unit = UNITS.find(({ inNm }) => isReadable(value * inNm));
  return unit === undefined
    ? ''
    : `: in ${unit.name}? In nanometres that is ${Number((value * unit.inNm).toFixed(4))}`;
}
