/**
 * In the built program this stands in for the `Intl.Segmenter` with which Ink's helpers cut a text into what is seen
 * as one character: that one takes longer to get ready than all lines of a frame to cut.
 */

/** Latin, Greek, and signs: nothing that joins to its neighbour, so that each is seen by itself. */
const EACH_BY_ITSELF = /^[\u001b\u0020-\u007e\u00a0-\u02ff\u0370-\u03ff\u2010-\u20cf\u2100-\u27bf]*$/;

export class GraphemeSegmenter {
  #thorough: Intl.Segmenter | null = null;

  segment(input: string): Iterable<Intl.SegmentData> {
    if (EACH_BY_ITSELF.test(input)) return [...input].map((segment, index) => ({ segment, index, input }));
    this.#thorough ??= new Intl.Segmenter(undefined, { granularity: 'grapheme' });
    return this.#thorough.segment(input);
  }
}
