/**
 * Draws the texts of the screen: the one gate to the terminal. Only here is Ink's `Text` used (a test of the imports
 * holds every view to that), so that nothing from a record, a file name or a lock reaches the terminal but as one line
 * of visible characters.
 */
import { Box, Text } from 'ink';
import { safeText } from '../../present/safe-text.ts';
import { asciiText, clip, type Line, type Span } from './spans.ts';
import type { Look } from './theme.ts';

interface LinesProps {
  readonly lines: readonly Line[];
  readonly look: Look;
  /** Longer lines are cut. */
  readonly width: number;
}

export function Lines({ lines, look, width }: LinesProps) {
  return (
    <Box flexDirection="column">
      {keyed(lines.map((spans) => clip(shownSpans(spans, look), width))).map(({ key, item }) => (
        <Text key={key} wrap="truncate">
          {item.length === 0
            ? ' '
            : keyed(item).map((part) => <Piece key={part.key} span={part.item} look={look} />)}
        </Text>
      ))}
    </Box>
  );
}

/** Lines and their parts have no identity but their place. */
function keyed<Item>(items: readonly Item[]): readonly { readonly key: string; readonly item: Item }[] {
  return items.map((item, at) => ({ key: String(at), item }));
}

/** Cleaned before it is measured: what is taken away has no width. */
function shownSpans(spans: Line, { ascii }: Look): Line {
  return spans.map((span) => {
    const text = safeText(span.text);
    return { ...span, text: ascii ? asciiText(text) : text };
  });
}

/** Whole sentences, each beginning a line of its own. */
export function Sentences({ sentences }: { readonly sentences: readonly string[] }) {
  return (
    <Box flexDirection="column">
      {keyed(sentences).map(({ key, item }) => (
        <Text key={key}>{safeText(item)}</Text>
      ))}
    </Box>
  );
}

function Piece({ span, look }: { readonly span: Span; readonly look: Look }) {
  const { text, tone = 'normal', wavelengthNm, inverse = false } = span;
  const colour = wavelengthNm === undefined ? look.colourOf(tone) : look.lineColour(wavelengthNm);
  return (
    <Text
      {...(colour === undefined ? {} : { color: colour })}
      bold={tone === 'strong' || tone === 'bad'}
      inverse={inverse}
    >
      {text}
    </Text>
  );
}
