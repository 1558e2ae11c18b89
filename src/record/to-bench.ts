/** A record turned into the numbers that the computation works with. */
import { quoteText } from '../angle/quote-text.ts';
import { colourNamed } from '../lines/colour.ts';
import { findLamp, findTube } from '../lines/names.ts';
import type {
  Bench,
  BenchLine,
  CheckLine,
  KnownLamp,
  NotSeenPlace,
  Setting,
  UnknownTube,
  Warning,
} from './bench.ts';
import { DECIMALS, settledDecimals } from './decimal-habit.ts';
import type { RecordProblem } from './explain-issues.ts';
import { placeIn } from './place-in.ts';
import { benchRanking, isExercise } from './ranking.ts';
import { circleIn, type Instrument, type Listener, readInstrument } from './read-instrument.ts';
import { readCentral, readSetting, repeatsDisagree, type SettingResult } from './read-setting.ts';
import type {
  BenchRecord,
  KnownLampRecord,
  ReadingValue,
  UnknownLineRecord,
  UnknownTubeRecord,
} from './schema.ts';
import { tooLarge } from './too-large.ts';

export type BenchResult =
  | { readonly ok: true; readonly bench: Bench; readonly warnings: readonly Warning[] }
  | { readonly ok: false; readonly problems: readonly RecordProblem[] };

/** Everything that is impossible in the record, or the bench with what is odd about it. */
export function checkedBench(record: BenchRecord): BenchResult {
  const problems = tooLarge(record);
  if (problems.length > 0) return { ok: false, problems };
  const warnings: Warning[] = [];
  const listener: Listener = {
    problem: (place, message) => problems.push({ place, message }),
    warn: (code, place, message) => warnings.push({ code, message: `${place}: ${message}` }),
  };
  const { record: settled, remark } = settledDecimals(record, circleIn(record));
  if (remark !== null) listener.warn(DECIMALS, remark.place, remark.message);
  const instrument = readInstrument(settled, listener);
  if (instrument === null) return { ok: false, problems };
  const bench = new RecordReader(settled, instrument, listener).bench();
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, bench, warnings: gatherWarnings(warnings) };
}

class RecordReader {
  readonly #record: BenchRecord;
  readonly #instrument: Instrument;
  readonly #listener: Listener;
  readonly #central: readonly Setting[];
  /** The shelf of all tubes that have none of their own. */
  readonly #commonShelf: readonly string[] | null;

  constructor(record: BenchRecord, instrument: Instrument, listener: Listener) {
    this.#record = record;
    this.#instrument = instrument;
    this.#listener = listener;
    this.#central = this.#centralSettings(record.central ?? [], 'central');
    this.#commonShelf = this.#shelf(record.shelf, 'shelf');
  }

  bench(): Bench {
    const record = this.#record;
    const { form, leastCount, apexAngle } = this.#instrument;
    const known = this.#knownLamps();
    return {
      title: record.title ?? '',
      method: form.method,
      leastCount,
      scaleDivisionArcmin: form.circle?.scaleDivisionArcmin ?? null,
      decimalCircle: form.circle?.decimal ?? false,
      windows: form.windows,
      prism: record.instrument.prism ?? 'each-line',
      setAtNm: record.instrument.setAtNm ?? null,
      apexAngle,
      central: this.#central,
      known,
      tubes: record.unknown.map((tube, index) => this.#tube(tube, index)),
      check: [
        ...this.#checks(record.check, 'check'),
        ...record.known.flatMap((lamp, index) =>
          this.#checks(lamp.check, `${placeIn('known', record.known, index)}.check`).map((line) => ({
            ...line,
            lampIndex: index,
          })),
        ),
      ],
      ranking: isExercise(record) ? 'after-answer' : 'always',
      about: aboutOf(record),
    };
  }

  #knownLamps(): KnownLamp[] {
    let index = 0;
    return this.#record.known.map((lamp, lampIndex) => {
      const place = placeIn('known', this.#record.known, lampIndex);
      const lines = lamp.lines.map((line, at) => ({
        ...this.#line(line, index++, `${place}.lines[${at}]`),
        lampIndex,
        statedWavelengthNm: line.wavelengthNm ?? null,
        confirmed: line.confirmed ?? false,
      }));
      return { name: lamp.lamp ?? '', substances: this.#lampSubstances(lamp, `${place}.lamp`), lines };
    });
  }

  #lampSubstances(lamp: KnownLampRecord, place: string): readonly string[] {
    if (lamp.lamp === undefined || lamp.lamp.trim() === '') return [];
    const found = findLamp(lamp.lamp);
    if ('substances' in found) return found.substances;
    this.#listener.problem(place, unknownName('lamp', lamp.lamp, found.suggestions));
    return [];
  }

  #line(line: UnknownLineRecord, index: number, place: string): BenchLine {
    const read = this.#repeats(line.readings, `${place}.readings`);
    const colour = line.color === undefined ? null : colourNamed(line.color);
    if (line.color !== undefined && colour === null && line.color.trim() !== '') {
      this.#listener.warn(
        'unknown-colour',
        `${place}.color`,
        `${quoteText(line.color)} is not a colour of the spectrum that the program knows; it is kept as a note only`,
      );
    }
    const { brightness = null, note = null, use = true } = line;
    return { index, ...read, colour, brightness, note, use };
  }

  #tube(tube: UnknownTubeRecord, index: number): UnknownTube {
    const place = placeIn('unknown', this.#record.unknown, index);
    const shelf = tube.shelf === undefined ? this.#commonShelf : this.#shelf(tube.shelf, `${place}.shelf`);
    const answer = tube.answer ?? this.#record.answer;
    return {
      index,
      label: tube.label?.trim() ? tube.label : `tube ${index + 1}`,
      central: tube.central?.length ? this.#centralSettings(tube.central, `${place}.central`) : null,
      lines: tube.lines.map((line, at) => this.#line(line, at, `${place}.lines[${at}]`)),
      notSeen: (tube.notSeen ?? []).flatMap((entry, at) => this.#notSeen(entry, `${place}.notSeen[${at}]`)),
      complete: tube.complete ?? false,
      shelf,
      answer:
        answer === undefined || answer.trim() === ''
          ? null
          : this.#answer(answer, tube.answer === undefined ? 'answer' : `${place}.answer`, shelf),
      ranking: tube.ranking ?? benchRanking(this.#record),
      answerBeforeRanking: tube.answerBeforeRanking ?? this.#record.answerBeforeRanking ?? null,
    };
  }

  #shelf(names: readonly string[] | undefined, place: string): readonly string[] | null {
    if (names === undefined || names.length === 0) return null;
    const substances = names.flatMap((name, at) => {
      const found = findTube(name);
      if ('substance' in found) return [found.substance];
      this.#listener.problem(`${place}[${at}]`, unknownName('tube', name, found.suggestions));
      return [];
    });
    return [...new Set(substances)];
  }

  #answer(text: string, place: string, shelf: readonly string[] | null): UnknownTube['answer'] {
    const found = findTube(text);
    if ('substance' in found) {
      const { substance } = found;
      if (shelf !== null && !shelf.includes(substance)) {
        const message = `${quoteText(text)} is none of the tubes on the shelf: ${shelf.join(', ')}`;
        this.#listener.warn('answer-off-shelf', place, message);
      }
      return { text, substance };
    }
    this.#listener.warn('unknown-answer', place, unknownName('tube', text, found.suggestions));
    return { text, substance: null };
  }

  #notSeen(entry: NonNullable<UnknownTubeRecord['notSeen']>[number], place: string): NotSeenPlace[] {
    if (entry.wavelengthNm !== undefined) return [{ kind: 'wavelength', wavelengthNm: entry.wavelengthNm }];
    if (entry.reading === undefined) return [];
    const { settings, texts } = this.#repeats([entry.reading], `${place}.reading`, true);
    return texts[0] === undefined ? [] : [{ kind: 'reading', settings, text: texts[0] }];
  }

  #checks(checks: BenchRecord['check'], place: string): CheckLine[] {
    return (checks ?? []).map(({ wavelengthNm, readings }, at) => ({
      wavelengthNm,
      ...this.#repeats(readings, `${place}[${at}].readings`),
    }));
  }

  #repeats(readings: readonly ReadingValue[], place: string, single = false) {
    const { form } = this.#instrument;
    const results = readings.map((reading) => readSetting(reading, form));
    // Readings of both sides are whole as they are: there the central image is only a check.
    const central = form.method === 'central' ? (this.#central[0] ?? null) : null;
    const read = this.#collect(results, place, single);
    for (const { code, message } of repeatsDisagree(read.settings, form.circle, central)) {
      this.#listener.warn(code, place, message);
    }
    return read;
  }

  #centralSettings(readings: NonNullable<BenchRecord['central']>, place: string): readonly Setting[] {
    const { form } = this.#instrument;
    if (form.circle === null) return [];
    const results = readings.map((reading) => readCentral(reading, form));
    // Whether they agree is weighed with the scatter of the bench (observe/central-list.ts).
    return this.#collect(results, place).settings;
  }

  #collect(results: readonly SettingResult[], place: string, single = false) {
    const settings: Setting[] = [];
    const texts: string[] = [];
    for (const [at, result] of results.entries()) {
      const at_ = single ? place : `${place}[${at}]`;
      if (!result.ok) {
        this.#listener.problem(at_, result.problem);
        continue;
      }
      settings.push(result.setting);
      texts.push(result.text);
      for (const { code, message } of result.odd) this.#listener.warn(code, at_, message);
    }
    return { settings, texts };
  }
}

function aboutOf(record: BenchRecord): Bench['about'] {
  const said = Object.entries(record.about ?? {});
  return Object.fromEntries(said.flatMap(([key, value]) => (value === undefined ? [] : [[key, value]])));
}

function unknownName(what: 'lamp' | 'tube', name: string, suggestions: readonly string[]): string {
  const quoted = name.trim() === '' ? 'an empty name' : quoteText(name);
  const hint =
    suggestions.length > 0
      ? `did you mean ${suggestions.join(' or ')}?`
      : 'the names are listed by "whichgas lines"';
  return `${quoted} is no ${what} that the program knows; ${hint}`;
}

/** Warnings of one kind that are listed one by one; more of them are counted. */
const listedOfAKind = 3;

/**
 * Warnings with the many of one kind gathered into one: a whole table of means is finer than the least count, and
 * forty sentences about it would hide the one that matters.
 */
function gatherWarnings(warnings: readonly Warning[]): Warning[] {
  const byCode = new Map<string, Warning[]>();
  for (const warning of warnings) {
    const alike = byCode.get(warning.code);
    if (alike === undefined) byCode.set(warning.code, [warning]);
    else alike.push(warning);
  }
  return [...byCode.values()].flatMap((alike) => {
    const [first] = alike;
    if (first === undefined || alike.length <= listedOfAKind) return alike;
    return [{ ...first, message: `${first.message}; and ${alike.length - 1} more like this` }];
  });
}
