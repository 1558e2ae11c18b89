/** Squared paper to draw a curve on: squares of 5 mm, every second line darker. `widthMm`, `heightMm`: multiples of 10. */
export function squaredPaper(widthMm: number, heightMm: number): string {
  const lines = (stepMm: number): string =>
    [
      ...steps(widthMm, stepMm).map((x) => `M${x} 0V${heightMm}`),
      ...steps(heightMm, stepMm).map((y) => `M0 ${y}H${widthMm}`),
    ].join('');
  return [
    `<svg class="paper" viewBox="-0.3 -0.3 ${widthMm + 0.6} ${heightMm + 0.6}" style="max-width:${widthMm}mm" role="img" aria-label="Squared paper for the calibration curve">`,
    `<path d="${lines(5)}" fill="none" stroke="#aaa" stroke-width="0.12"/>`,
    `<path d="${lines(10)}" fill="none" stroke="#777" stroke-width="0.25"/>`,
    '</svg>',
  ].join('');
}

const steps = (lengthMm: number, stepMm: number): number[] =>
  Array.from({ length: Math.floor(lengthMm / stepMm) + 1 }, (_, at) => at * stepMm);
