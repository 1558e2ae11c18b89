/** The whole frame: side by side on a large terminal, by stage on a small one, a plain sentence on a tiny one. */
import { Box } from 'ink';
import { actionsHere, OPENS_LIST } from '../action-list.ts';
import { checksOnCurve } from '../check-line.ts';
import { caution, guidance } from '../guidance.ts';
import { namesTogether } from '../known-lamp.ts';
import { whyNoCurve } from '../no-curve.ts';
import { type Picture, pictureHere, type ScreenState } from '../state.ts';
import { isWriting } from '../target.ts';
import { noCurveLines, residualLines } from './curve.ts';
import { doubtLines, saidBelow } from './doubts.ts';
import { entryLine, messageLines, vernierLines } from './entry.ts';
import { stageLine, titleLine } from './heading.ts';
import { Lines, Sentences } from './lines.tsx';
import { cursorMessage, listLines, reasonAtCursor } from './list.ts';
import { overlayLines } from './overlays.ts';
import { pictureLines, stripWithKey, whyLines } from './pictures.ts';
import { EMPTY, exactly, type Line, line, wrap } from './spans.ts';
import { type Look, lookOf } from './theme.ts';

export interface ScreenProps {
  readonly state: ScreenState;
  readonly columns: number;
  /** Rows of the terminal; the frame is one shorter, because a full one makes Ink wipe what was above it. */
  readonly rows: number;
  readonly ascii: boolean;
}

export const SMALLEST = { columns: 60, rows: 20 };
const WIDE = { columns: 118, rows: 32 };
const PANEL_ROWS = 7;
const TALK_ROWS = 2;
const MOST_TALK_ROWS = 5;
const STRIP_ROWS = 7;

export function BenchScreen({ state, columns, rows, ascii }: ScreenProps) {
  if (columns < SMALLEST.columns || rows < SMALLEST.rows) {
    const sentence = `whichgas needs a window of at least ${SMALLEST.columns} x ${SMALLEST.rows} characters; this one has ${columns} x ${rows}. Make it larger: nothing is lost.`;
    return <Sentences sentences={[sentence]} />;
  }
  const look = lookOf(state.palette, ascii);
  // The last column stays free: some terminals break the line after it.
  const width = columns - 1;
  const top = topLines(state, width, look);
  const talk = talkLines(state, width, look);
  const bottom = [...talk, keysLine(state, width)];
  const height = rows - 1 - top.length - bottom.length;
  const size = { state, width, height, look, lostRows: Math.max(0, talk.length - TALK_ROWS) };
  const isWide = columns >= WIDE.columns && rows >= WIDE.rows;
  return (
    <Box flexDirection="column" height={rows - 1} width={columns}>
      <Lines lines={top} look={look} width={width} />
      {isWide ? (
        <WideMiddle {...size} />
      ) : (
        <Lines lines={exactly(stageLines(size), size.height)} look={look} width={width} />
      )}
      <Lines lines={bottom} look={look} width={width} />
    </Box>
  );
}

interface PartProps {
  readonly state: ScreenState;
  readonly width: number;
  readonly height: number;
  readonly look: Look;
  /** Rows that a long sentence below has taken. */
  readonly lostRows: number;
}

function topLines(state: ScreenState, width: number, look: Look): readonly Line[] {
  return [
    titleLine(state, width, look),
    stageLine(state, width, look),
    line(look.glyphs.rule.repeat(width), 'faint'),
  ];
}

/** What the program has to say; when that is nothing, what to do now. A long sentence is not cut, it takes more rows. */
function talkLines(state: ScreenState, width: number, look: Look): readonly Line[] {
  const message = messageLines(state, width, MOST_TALK_ROWS, look);
  if (state.overlay !== null) return message.length > 0 ? message : beforeChoosing(state, width, look);
  const talk = message.length > 0 ? message : unasked(state, width, look);
  return exactly(talk, Math.max(TALK_ROWS, talk.length));
}

function unasked(state: ScreenState, width: number, look: Look): readonly Line[] {
  const doubt = cursorMessage(state);
  const text = doubt === null ? (reasonAtCursor(state) ?? guidance(state)) : `${look.glyphs.doubt} ${doubt}`;
  const tone = doubt === null ? 'normal' : 'doubt';
  return wrap(text, width - 2, MOST_TALK_ROWS).map((each) => line(` ${each}`, tone));
}

/** The lamp is switched on after it has been chosen. */
function beforeChoosing(state: ScreenState, width: number, look: Look): readonly Line[] {
  return state.overlay?.kind === 'pick' && state.overlay.purpose === 'lamp'
    ? cautionLines(state, width, look)
    : [];
}

/** The keys that act here and now, as many as there is room for. */
function keysLine(state: ScreenState, width: number): Line {
  if (state.overlay !== null) return EMPTY;
  if (isWriting(state)) {
    const { kind } = state.entry.purpose;
    const takes = { 'quick-check': 'convert it', report: 'write it' }[kind as string] ?? 'take it';
    return line(` Enter ${takes}  Esc leave it  Ctrl+U empty the line`, 'faint');
  }
  const { stage } = state.history.place;
  const named = [
    ...(stage === 'answer' ? ['Enter list of names'] : []),
    ...actionsHere(state).flatMap(({ key, footer, footerAt }) =>
      footer === undefined || footerAt?.includes(stage) === false ? [] : [`${key} ${footer}`],
    ),
  ];
  const last = `  ${OPENS_LIST} all else  ? help`;
  let text = ' Tab stage';
  for (const each of named) if (`${text}  ${each}${last}`.length <= width) text = `${text}  ${each}`;
  return line(text + last, 'faint');
}

/** List, the line typed, and under it the vernier or what else helps; or a list to choose from; or a picture. */
function stageLines({ state, width, height, look, lostRows }: PartProps): readonly Line[] {
  if (state.overlay !== null) return overlayLines(state.overlay, state, width, height, look);
  const entry = entryLine(state, look);
  const chosen = pictureHere(state);
  if (chosen !== 'table') {
    const picture = vernierLines(state, width, look) ?? wholePicture(chosen, state, width, height - 1, look);
    return [...exactly(picture, height - 1), entry];
  }
  const fullPanel = Math.min(PANEL_ROWS, height + lostRows - 5);
  const panel = panelLines(state, width, fullPanel, look);
  // The line typed stays where it is as long as there are empty rows below it to give away.
  const panelRows = Math.max(panel.length, fullPanel - lostRows);
  const listRows = height - panelRows - 1;
  return [...exactly(listLines(state, width, listRows, look), listRows), entry, ...exactly(panel, panelRows)];
}

/** The curve with the spectrum under it, which runs the same way; another picture alone. */
function wholePicture(
  picture: Picture,
  state: ScreenState,
  width: number,
  height: number,
  look: Look,
): readonly Line[] {
  if (picture !== 'curve' || state.result?.analysis?.calibration.curve == null)
    return pictureLines(picture, state, width, height, look);
  const curve = pictureLines('curve', state, width, height - STRIP_ROWS, look);
  return [...exactly(curve, height - STRIP_ROWS), ...stripWithKey(state, width, look)];
}

/** Under the line typed: the vernier while one types, else what helps most at this stage. */
function panelLines(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const typed = vernierLines(state, width, look);
  if (typed !== null) return typed;
  const { stage } = state.history.place;
  if (stage === 'circle') return [EMPTY, ...cautionLines(state, width, look)];
  if (stage === 'lamp') return lampPanel(state, width, height, look);
  return [...stripWithKey(state, width, look)];
}

/** Why there is no curve comes first, then what is doubtful; else the residuals and a caution. */
function lampPanel(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const analysis = state.result?.analysis ?? null;
  if (analysis !== null && whyNoCurve(analysis.calibration) !== null)
    return noCurveLines({ analysis, width, height, look });
  const doubts =
    analysis === null
      ? []
      : doubtLines(analysis, width, height, look, saidBelow(state, look), namesTogether(state));
  if (doubts.length > 0) return doubts;
  const warned = cautionLines(state, width, look);
  if (analysis?.calibration.curve == null) return [EMPTY, ...warned];
  const checks = checksOnCurve(state);
  return [...residualLines({ analysis, checks, width, height: height - warned.length, look }), ...warned];
}

function cautionLines(state: ScreenState, width: number, look: Look): readonly Line[] {
  return wrap(`${look.glyphs.doubt} ${caution(state)}`, width - 2, 2).map((text) =>
    line(` ${text}`, 'doubt'),
  );
}

/** The strip across the top, the list and the vernier at the left, the pictures of the stage at the right. */
function WideMiddle({ state, width, height, look }: PartProps) {
  const leftWidth = 78;
  const rightWidth = width - leftWidth - 2;
  const rows = height - STRIP_ROWS - 1;
  const left = exactly(wideLeft(state, leftWidth, rows, look), rows);
  return (
    <Box flexDirection="column">
      <Lines
        lines={[
          ...exactly(stripWithKey(state, width, look), STRIP_ROWS),
          line(look.glyphs.rule.repeat(width), 'faint'),
        ]}
        look={look}
        width={width}
      />
      <Box>
        <Box width={leftWidth} flexShrink={0}>
          <Lines lines={left} look={look} width={leftWidth} />
        </Box>
        <Box width={2} flexShrink={0}>
          <Lines lines={left.map(() => line(look.glyphs.upright, 'faint'))} look={look} width={2} />
        </Box>
        <Box width={rightWidth} flexShrink={0}>
          <Lines lines={wideRight(state, rightWidth, rows, look)} look={look} width={rightWidth} />
        </Box>
      </Box>
    </Box>
  );
}

function wideLeft(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  if (state.overlay !== null) return overlayLines(state.overlay, state, width, height, look);
  const listRows = height - PANEL_ROWS - 1;
  const under = vernierLines(state, width, look) ?? [EMPTY, ...cautionLines(state, width, look)];
  return [...exactly(listLines(state, width, listRows, look), listRows), entryLine(state, look), ...under];
}

function wideRight(state: ScreenState, width: number, height: number, look: Look): readonly Line[] {
  const picture = pictureHere(state);
  const { stage } = state.history.place;
  // The list is on the screen anyway; another picture chosen gets the whole side.
  if (picture !== 'table') return exactly(pictureLines(picture, state, width, height, look), height);
  // Why there is no curve is said once.
  if (whyNoCurve(state.result?.analysis?.calibration) !== null)
    return exactly(pictureLines('curve', state, width, height, look), height);
  const lower = pictureLines('residuals', state, width, Math.floor(height / 2), look);
  const upperRows = height - lower.length;
  const upper =
    stage === 'answer'
      ? whyLines(state, width, upperRows - 1, look)
      : pictureLines(stage === 'tube' ? 'tubes' : 'curve', state, width, upperRows - 1, look);
  return [...exactly(upper, upperRows), ...lower];
}
