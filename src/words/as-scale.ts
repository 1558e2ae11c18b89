/** What to do with readings that have no zero of deviation, or no prism behind them. */

/** For whom the central image can no longer be read. */
export const centralLost =
  'Where it can no longer be read, --as-scale (with calibrate, identify or report) takes the readings as those of a scale, and fits the zero with the curve; no index of the prism can be had then.';

/** Said where it has been done. */
export const takenAsScale =
  'The readings are taken as those of a scale, in degrees as they are: the zero is fitted with the curve, and no index of the prism can be had.';

/** `linesPerMm` null: the deviations rise, but not as those of light that falls straight on a grating. */
export function risingSentence(linesPerMm: number | null): string {
  const what =
    linesPerMm === null
      ? 'is this a grating, or are the wavelengths written down the wrong way round?'
      : `is this a grating? The deviations follow sin δ = λ·N, with ${linesPerMm.toFixed(0)} lines per mm in the first order.`;
  return `The longer wavelengths deviate more, and a prism does the opposite: ${what} A grating's readings can be taken as those of a scale, through which a smooth curve is drawn: add --as-scale (with calibrate, identify or report), or write "method": "scale" with readings and least count in decimal degrees.`;
}
