/** The whole frame: side by side on a large terminal, by stage on a small one, a plain sentence on a tiny one. */
import { Box } from 'ink';
import { actionsHere, OPENS_LIST } from '../action-list.ts';
import { caution, guidance } from '../guidance.ts';
import { namesTogether } from '../known-lamp.ts';
import { whyNoCurve } from '../no-curve.ts';
import { type Picture, pictureHere, type ScreenState } from '../state.ts';
import { analysisNow, isWriting } from '../target.ts';
import { noCurveLines, residualLines } from './curve.ts';
import { doubtLines, saidBelow } from './doubts.ts';
import { entryLine, messageLines, vernierLines } from './entry.ts';
import { stageLine, titleLine } from './heading.ts';
import { Lines, Sentences } from './lines.tsx';
import { cursorMessage, listLines, reasonAtCursor } from './list.ts';
import { overlayLines } from './overlays.ts';
import { pictureLines, stripWithKey, whyLines } from './pictures.ts';
import { type Area, EMPTY, exactly, type Line, line, paragraph } from './spans.ts';
import { lookOf } from './theme.ts';

interface ScreenProps {
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
  const whole = { state, width, height: rows - 1, look };
  const top = [titleLine(whole), stageLine(whole), line(look.glyphs.rule.repeat(width), 'faint')];
  const talk = talkLines(whole);
  const bottom = [...talk, keysLine(whole)];
  const height = whole.height - top.length - bottom.length;
  const size = { ...whole, height, lostRows: Math.max(0, talk.length - TALK_ROWS) };
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

interface Middle extends Area {
  /** Rows that a long sentence below has taken. */
  readonly lostRows: number;
}

/** What the program has to say; when that is nothing, what to do now. A long sentence is not cut, it takes more rows. */
function talkLines(area: Area): readonly Line[] {
  const { overlay } = area.state;
  const message = messageLines({ ...area, height: MOST_TALK_ROWS });
  if (overlay === null) {
    const talk = message.length > 0 ? message : unasked(area);
    return exactly(talk, Math.max(TALK_ROWS, talk.length));
  }
  // The lamp is switched on after it has been chosen.
  const isBeforeLamp = overlay.kind === 'pick' && overlay.purpose === 'lamp';
  return message.length === 0 && isBeforeLamp ? cautionLines(area) : message;
}

function unasked({ state, width, look }: Area): readonly Line[] {
  const doubt = cursorMessage(state);
  return doubt === null
    ? paragraph(reasonAtCursor(state) ?? guidance(state), width, 'normal', MOST_TALK_ROWS)
    : paragraph(`${look.glyphs.doubt} ${doubt}`, width, 'doubt', MOST_TALK_ROWS);
}

/** The keys that act here and now, as many as there is room for. */
function keysLine({ state, width }: Area): Line {
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
function stageLines(area: Middle): readonly Line[] {
  const { state, height, look, lostRows } = area;
  if (state.overlay !== null) return overlayLines(state.overlay, area);
  const entry = entryLine(state, look);
  const chosen = pictureHere(state);
  if (chosen !== 'table') {
    const picture = vernierLines(area) ?? wholePicture(chosen, { ...area, height: height - 1 });
    return [...exactly(picture, height - 1), entry];
  }
  const fullPanel = Math.min(PANEL_ROWS, height + lostRows - 5);
  const panel = panelLines({ ...area, height: fullPanel });
  // The line typed stays where it is as long as there are empty rows below it to give away.
  const panelRows = Math.max(panel.length, fullPanel - lostRows);
  return [...listOf(area, height - panelRows - 1), entry, ...exactly(panel, panelRows)];
}

/** The curve with the spectrum under it, which runs the same way; another picture alone. */
function wholePicture(picture: Picture, area: Area): readonly Line[] {
  if (picture !== 'curve' || analysisNow(area.state)?.calibration.curve == null)
    return pictureLines(picture, area);
  const height = area.height - STRIP_ROWS;
  return [...exactly(pictureLines('curve', { ...area, height }), height), ...stripWithKey(area)];
}

/** Under the line typed: the vernier while one types, else what helps most at this stage. */
function panelLines(area: Area): readonly Line[] {
  const typed = vernierLines(area);
  if (typed !== null) return typed;
  const { stage } = area.state.history.place;
  if (stage === 'circle') return [EMPTY, ...cautionLines(area)];
  return stage === 'lamp' ? lampPanel(area) : stripWithKey(area);
}

/** Why there is no curve comes first, then what is doubtful; else the residuals and a caution. */
function lampPanel(area: Area): readonly Line[] {
  const { state, height, look } = area;
  const analysis = analysisNow(state);
  const warned = cautionLines(area);
  if (analysis === null) return [EMPTY, ...warned];
  if (whyNoCurve(analysis.calibration) !== null) return noCurveLines(analysis, area);
  const doubts = doubtLines(analysis, area, saidBelow(state, look), namesTogether(state));
  if (doubts.length > 0) return doubts;
  if (analysis.calibration.curve === null) return [EMPTY, ...warned];
  return [...residualLines(analysis, { ...area, height: height - warned.length }), ...warned];
}

function cautionLines({ state, width, look }: Area): readonly Line[] {
  return paragraph(`${look.glyphs.doubt} ${caution(state)}`, width, 'doubt', 2);
}

/** The strip across the top, the list and the vernier at the left, the pictures of the stage at the right. */
function WideMiddle(area: Middle) {
  const { width, look } = area;
  const leftWidth = 78;
  const rightWidth = width - leftWidth - 2;
  const height = area.height - STRIP_ROWS - 1;
  const strip = exactly(stripWithKey(area), STRIP_ROWS);
  const left = exactly(wideLeft({ ...area, width: leftWidth, height }), height);
  const right = wideRight({ ...area, width: rightWidth, height });
  return (
    <Box flexDirection="column">
      <Lines lines={[...strip, line(look.glyphs.rule.repeat(width), 'faint')]} look={look} width={width} />
      <Box>
        <Box width={leftWidth} flexShrink={0}>
          <Lines lines={left} look={look} width={leftWidth} />
        </Box>
        <Box width={2} flexShrink={0}>
          <Lines lines={left.map(() => line(look.glyphs.upright, 'faint'))} look={look} width={2} />
        </Box>
        <Box width={rightWidth} flexShrink={0}>
          <Lines lines={right} look={look} width={rightWidth} />
        </Box>
      </Box>
    </Box>
  );
}

function wideLeft(area: Area): readonly Line[] {
  const { state, height, look } = area;
  if (state.overlay !== null) return overlayLines(state.overlay, area);
  const under = vernierLines(area) ?? [EMPTY, ...cautionLines(area)];
  return [...listOf(area, height - PANEL_ROWS - 1), entryLine(state, look), ...under];
}

function listOf(area: Area, height: number): readonly Line[] {
  return exactly(listLines({ ...area, height }), height);
}

function wideRight(area: Area): readonly Line[] {
  const { state, height } = area;
  const picture = pictureHere(state);
  const { stage } = state.history.place;
  // The list is on the screen anyway; another picture chosen gets the whole side.
  if (picture !== 'table') return exactly(pictureLines(picture, area), height);
  // Why there is no curve is said once.
  if (whyNoCurve(analysisNow(state)?.calibration) !== null)
    return exactly(pictureLines('curve', area), height);
  const lower = pictureLines('residuals', { ...area, height: Math.floor(height / 2) });
  const upperRows = height - lower.length;
  const above = { ...area, height: upperRows - 1 };
  const upper =
    stage === 'answer' ? whyLines(above) : pictureLines(stage === 'tube' ? 'tubes' : 'curve', above);
  return [...exactly(upper, upperRows), ...lower];
}
