/** Draws lines of spans. */
import { Box, Text } from 'ink';
import { asciiText, clip, type Line, type Span } from './spans.ts';
import type { Look } from './theme.ts';

export interface LinesProps {
  readonly lines: readonly Line[];
  readonly look: Look;
  /** Longer lines are cut. */
  readonly width: number;
}

export function Lines({ lines, look, width }: LinesProps) {
  return (
    <Box flexDirection="column">
      {keyed(lines.map((spans) => clip(look.ascii ? asciiSpans(spans) : spans, width))).map(
        ({ key, item }) => (
          <Text key={key} wrap="truncate">
            {item.length === 0
              ? ' '
              : keyed(item).map((part) => <Piece key={part.key} span={part.item} look={look} />)}
          </Text>
        ),
      )}
    </Box>
  );
}

/** Lines and their parts have no identity but their place. */
function keyed<Item>(items: readonly Item[]): readonly { readonly key: string; readonly item: Item }[] {
  return items.map((item, at) => ({ key: String(at), item }));
}

function asciiSpans(spans: Line): Line {
  return spans.map((span) => ({ ...span, text: asciiText(span.text) }));
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
