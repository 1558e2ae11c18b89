/** The step at hand in one line, and the cautions that belong to it. Words of our own (common practice, no source). */
import type { NextLook } from '../analysis/types.ts';
import { findLamp } from '../lines/names.ts';
import type { TubeLine } from '../lines/spectrum.ts';
import { lampSpectrum } from '../lines/table.ts';
import { wayHere, wayTo } from './action-list.ts';
import { fieldHint } from './circle-fields.ts';
import { expectedReading } from './expected-reading.ts';
import { instrumentShape, needsCentral, readingParts } from './instrument.ts';
import { enoughLines } from './known-lamp.ts';
import { lineAtCursor } from './line-at-cursor.ts';
import { isLookedAt, nextLookHere } from './looking.ts';
import { whyNoCurveInShort } from './no-curve.ts';
import { answerOf, comparedSubstance, rankingIsHeldBack } from './ranking.ts';
import { rowAtCursor } from './rows.ts';
import type { EntryPurpose, ScreenState } from './state.ts';
import { analysisNow, isCentral } from './target.ts';

/** What to do now. */
export function guidance(state: ScreenState): string {
  const { place } = state.history;
  if (state.moving)
    return 'Line in hand: up and down move it, left and right bring it to another tube, Enter puts it down.';
  const writing = WRITING[state.entry.purpose.kind];
  if (writing !== null) return writing;
  const rest = restText(state);
  if (rest !== null) return rest;
  const look = nextLookHere(state);
  if (state.looking && look !== null) return lookingText(state, look);
  switch (place.stage) {
    case 'circle':
      return circleText(state);
    case 'lamp':
      return `${noteText(state)}${lampText(state)}`;
    case 'tube':
      return `${noteText(state)}${tubeText(state)}`;
    case 'answer':
      return answerText(state);
  }
}

/** What is written where it is not the next reading; null where it is. */
const WRITING: Readonly<Record<EntryPurpose['kind'], string | null>> = {
  'quick-check': 'Type a reading, a wavelength (587.56 nm) or a gas; nothing is written down. Esc leaves.',
  'save-as': 'A new file: the record is kept there from now on, the old file stays as it is.',
  report: 'The file of the report: a name that ends in .html, .md or .csv. Enter writes it.',
  note: 'A note on this line. Enter takes it; with nothing typed the note is taken off.',
  label: 'What is written on the tube or its holder. Enter takes it.',
  'not-seen':
    'The reading of the place where you saw nothing, once your eyes are used to the dark and room light is kept off.',
  'tube-central': 'Cross-hairs on the bright central image, read: the deviations of this tube count from it.',
  edit: 'The reading as it should be. Up and down go to the other repeats of the line.',
  'edit-central': 'The reading as it should be.',
  row: null,
};

/** What of a reading is still to come; null where none is begun. */
function restText(state: ScreenState): string | null {
  const { parts } = state.entry;
  const wanted = readingParts(instrumentShape(state.history.record), isCentral(state));
  const next = wanted[parts.length];
  if (parts.length === 0 || next === undefined) return null;
  if (!next.startsWith('right') || !wanted[parts.length - 1]?.startsWith('left'))
    return `Now ${next}, with the telescope where it is. Backspace goes back to the part before.`;
  const row = rowAtCursor(state);
  const near = row?.kind === 'expected' ? expectedReading(state, row.expected.wavelengthNm) : null;
  const right = near === null ? '' : `, near ${near.replace(/^.* right /, '')}`;
  return `Left is in. Now the other side: the same line on the right of the central image${right}. Backspace goes back.`;
}

function answerText(state: ScreenState): string {
  if (rankingIsHeldBack(state))
    return 'Look at your wavelengths and decide first: type the name (Enter: the list), then the possible tubes appear.';
  const { record, place } = state.history;
  const answer = answerOf(record, place.tube);
  const others = record.unknown.length > 1 ? ' Left and right: the other tubes.' : '';
  return answer === ''
    ? `Type the name (Enter: the list). Up and down show another tube in the strip.${others}`
    : `Your answer is written; another name changes it. Now ${wayTo('report')}, ${wayTo('tubes')}, or ${wayTo('leave')} leaves.${others}`;
}

function circleText(state: ScreenState): string {
  const { record } = state.history;
  const row = rowAtCursor(state);
  if (row?.kind === 'field') return `${fieldHint(row.field)}.`;
  if ((record.central?.length ?? 0) > 0)
    return 'Set on the central image once more and read again (shows your scatter), or Tab to the known lamp.';
  return record.instrument.method === 'both-sides'
    ? 'Not needed for both sides (Tab: known lamp). As a check: cross-hairs on the bright central image, read.'
    : 'Cross-hairs sharp first. Straight through, on the central image; dim? Move lamp and slit. Clamp, read, type.';
}

function lampText(state: ScreenState): string {
  if (needsCentral(state.history.record))
    return 'First the central image: Shift+Tab and type its reading; deviations are counted from it.';
  const row = rowAtCursor(state);
  const reach = row?.kind === 'expected' || row?.kind === 'new-line' ? enoughLines(state) : null;
  if (reach !== null)
    return `Enough: the curve is good to ${upTo(reach.worstNm)} nm between ${reach.fromNm.toFixed(0)} and ${reach.toNm.toFixed(0)} nm; Tab goes to the tube. ${furtherLine(state)}`;
  switch (row?.kind) {
    case 'expected':
      return `Find the ${row.expected.colour} line ${row.expected.wavelengthNm.toFixed(1)}${expectedText(state, row.expected)}: ${settingText(state)}${isLessBright(row.expected) ? ` ${LESS_BRIGHT}` : ''}`;
    case 'new-line':
      return 'Type the reading of any other line, or 546.07 = reading; with the word check behind, it only tests the curve.';
    case 'check':
      return `Check line, kept out of the curve: does the curve still hold? Type to read it once more; ${wayTo('check-line')} puts it back.`;
    default:
      return `Type to read this line once more (${exampleReading(state)} check: as a check of the curve); the arrow keys go to another line.`;
  }
}

/** The line of the lamp that would sharpen the wavelengths of tubes most, and by how much. */
function furtherLine(state: ScreenState): string {
  const { advice = null } = state.result?.adviceLamp === state.history.place.lamp ? state.result : {};
  const line = advice?.lamps[0]?.lines.find(({ wavelengthNm }) => !state.passedOver.includes(wavelengthNm));
  if (advice === null || line === undefined) return 'More lines may still be typed.';
  const near = line.reading === null ? '' : ` (near ${line.reading})`;
  return `Of what is left ${line.wavelengthNm.toFixed(1)} ${line.colour}${near} helps most: the lines of tubes then have ± ${line.rmsNm.toPrecision(2)} nm instead of ± ${advice.nowNm.toPrecision(2)}.`;
}

/** Rounded up to one digit: `0.4`, `2`. */
function upTo(nm: number): string {
  const digit = 10 ** Math.floor(Math.log10(nm));
  return String(Number((Math.ceil(nm / digit) * digit).toPrecision(1)));
}

function tubeText(state: ScreenState): string {
  const { record } = state.history;
  if (needsCentral(state.history.record))
    return 'First the central image: stage 1 (Tab), its reading is the zero of every deviation.';
  if (state.result === null && record.known.some(({ lines }) => lines.length > 0))
    return 'The wavelengths are being computed; readings can be typed meanwhile.';
  const why = whyNoCurveInShort(analysisNow(state)?.calibration);
  if (why !== null) return `${why} Stage 2 says more; readings can be written down all the same.`;
  if (analysisNow(state)?.calibration.curve == null)
    return 'Readings can be written down now; wavelengths come with the known lamp (stage 2).';
  if (lineAtCursor(state) !== null)
    return 'Type to read this line once more; the arrow keys go to another line.';
  if ((record.unknown[state.history.place.tube]?.lines.length ?? 0) === 0)
    return 'Find bright lines by bare eye beside the prism, bring the telescope there, read; bands at their sharp edge.';
  const how = bandText(state) ?? `One line after another: ${settingText(state)}`;
  return `${how} Colour may follow: ${exampleReading(state)} red`;
}

/** A line that no list calls strong, a third as prominent as those (natural logarithm); common practice, no source. */
const LESS_BRIGHT_BELOW = -1;
const isLessBright = ({ brightness, prominence }: TubeLine): boolean =>
  brightness !== 'strong' && prominence < LESS_BRIGHT_BELOW;
const LESS_BRIGHT = 'Less bright: give your eyes time, keep room light off.';

/** Where one sets on the bands of the tube that leads: where their light does not shade off. Null where it has none. */
function bandText(state: ScreenState): string | null {
  const leader = comparedSubstance(state);
  if (leader === null) return null;
  const sides = lampSpectrum([leader]).lines.flatMap(({ kind, degraded, brightness }) =>
    kind === 'band-head' && degraded !== null && brightness !== null ? [degraded] : [],
  );
  const [side] = sides;
  if (side === undefined) return null;
  const where = sides.every((each) => each === side)
    ? `, on its ${side === 'violet' ? 'red' : 'violet'} side`
    : '';
  return `On a band of ${leader} set on the sharp edge${where}.`;
}

function exampleReading({ history: { record } }: ScreenState): string {
  return record.instrument.method === 'scale' ? '12.3' : '229 40';
}

/** The note on the line at the cursor, which the list has no room for. */
function noteText(state: ScreenState): string {
  const note = lineAtCursor(state)?.line.note?.trim() ?? '';
  return note === '' ? '' : `Note: ${note}${/[.!?]$/.test(note) ? '' : '.'} `;
}

function expectedText(state: ScreenState, expected: TubeLine): string {
  const reading = expectedReading(state, expected.wavelengthNm);
  return reading === null ? '' : `, near ${reading}`;
}

function settingText(state: ScreenState): string {
  const { record } = state.history;
  if (record.instrument.method === 'scale') return 'read where it stands on the scale.';
  if (record.instrument.prism === 'fixed') return 'leave the prism alone, cross-hairs on it, read.';
  const isFirst = record.known.every(({ lines }) => lines.length === 0);
  return isFirst
    ? 'turn the prism on while it nears the central image; read where it turns back.'
    : 'turn the prism, read where it stops and turns back.';
}

function lookingText(state: ScreenState, look: NextLook): string {
  if (isLookedAt(state, look)) return 'Written down. The next place to look at comes in a moment.';
  const separates = rankingIsHeldBack(state) ? '' : `, tells ${look.separates.join(' from ')}`;
  return `Look near ${look.reading} (${look.wavelengthNm.toFixed(1)} nm${separates}). Seen: type its reading. Nothing there: ${wayHere('not-seen', state)}`;
}

const SUPPLY =
  'Supply off and unplugged before a tube is put in, touched or changed: there are kilovolts at the holder.';
const HOT = 'The glass is hot after use. Keep to the on and off times written on the supply.';

/** Lamps that begin with the light of their starting gas (common practice, no source). */
const WARM_UP: readonly string[] = [
  'mercury',
  'sodium',
  'potassium',
  'cadmium',
  'zinc',
  'thallium',
  'indium',
];

/** What is to be heeded where one is; at the known lamp what belongs to this one. */
export function cautions({ history: { record, place } }: ScreenState): readonly string[] {
  switch (place.stage) {
    case 'circle':
      return ['Never point the telescope at the sun. Local rules and your instructor come first.'];
    case 'lamp':
      return lampCautions(record.known[place.lamp]?.lamp);
    case 'tube':
      return [
        SUPPLY,
        HOT,
        "Note room light and the neighbour's lamp: their lines are not the tube's.",
        'Faint lines: wait some minutes for your eyes, and keep room light off.',
      ];
    case 'answer':
      return ['Supply off and unplugged before the tube is taken out; the glass is hot.'];
  }
}

/** All of them while it is not known which lamp it is. */
function lampCautions(lamp: string | undefined): readonly string[] {
  const found = lamp === undefined ? null : findLamp(lamp);
  const substances = found !== null && 'substances' in found ? found.substances : WARM_UP;
  return [
    SUPPLY,
    ...(substances.includes('mercury')
      ? [
          'A mercury lamp stays in its housing (ultraviolet). If one breaks: leave, air the room, tell the instructor.',
        ]
      : []),
    ...(substances.some((substance) => WARM_UP.includes(substance))
      ? ['Let a metal lamp warm up for some minutes: at first it shows its starting gas.']
      : [HOT]),
  ];
}

/** The caution for this moment: before the first line the supply, later the others in turn. */
export function caution(state: ScreenState): string {
  const { record, place } = state.history;
  const list = cautions(state);
  const lines =
    place.stage === 'lamp'
      ? record.known[place.lamp]?.lines.length
      : record.unknown[place.tube]?.lines.length;
  return list[(lines ?? 0) % list.length]!;
}
