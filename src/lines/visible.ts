/** Which wavelengths are visible, asked by everyone who must know. */

/** Where any line was ever read by eye in a dark room, nm: the range of the line table. */
export const readableNm = { shortest: 380, longest: 800 } as const;

/** Where a line may be seen by eye, if only by few; beyond, only that of a bright lamp (common practice, no source). */
const visibleNm = { shortest: readableNm.shortest, longest: 720 } as const;

/** Where every line of ordinary strength is seen, nm (common practice, no source). */
export const wellSeenNm = { shortest: 395, longest: 715 } as const;

/** Is every line of ordinary strength seen at this wavelength? */
export function isWellSeen(wavelengthNm: number): boolean {
  return wavelengthNm >= wellSeenNm.shortest && wavelengthNm <= wellSeenNm.longest;
}

/** Is a line of this wavelength ever seen by eye, if only by few? */
export function isVisible(wavelengthNm: number): boolean {
  return wavelengthNm > visibleNm.shortest && wavelengthNm < visibleNm.longest;
}

/** Can a reading stand at this wavelength, if only in a dark room and of a bright lamp? */
export function isReadable(wavelengthNm: number): boolean {
  return wavelengthNm >= readableNm.shortest && wavelengthNm <= readableNm.longest;
}
