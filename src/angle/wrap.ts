/** Arithmetic on a circle of 360°. All angles in degrees. */

/** A direction brought into [0, 360). */
export function wrapDirection(degrees: number): number {
  const wrapped = degrees % 360;
  return wrapped < 0 ? wrapped + 360 : Object.is(wrapped, -0) ? 0 : wrapped;
}

/** A difference of two directions brought into (-180, 180]: the smaller arc, with its sign. */
export function wrapDegrees(difference: number): number {
  const wrapped = wrapDirection(difference);
  return wrapped > 180 ? wrapped - 360 : wrapped;
}
