/** The pictures of the bench screen in README.md and DEVELOPERS.md, made from the bundled example. */
import { renderToString } from 'ink';
import { analyseForm } from '../../src/tui/computation.ts';
import { demoBench } from '../../src/tui/demo-bench.ts';
import type { BenchForm } from '../../src/tui/form.ts';
import { BenchScreen } from '../../src/tui/views/screen.tsx';
import { KEYS, openBench } from './harness.ts';

interface Picture {
  readonly caption: string;
  readonly form: BenchForm;
  readonly keys: readonly string[];
  readonly columns: number;
  readonly rows: number;
}

const { tab, enter } = KEYS;

/** The example while its last known lines are still to be read. */
const halfWay: BenchForm = {
  ...demoBench,
  known: demoBench.known.map((lamp) => ({
    ...lamp,
    lines: lamp.lines.slice(-4, -1).concat(lamp.lines.slice(-5, -4)),
  })),
  unknown: [{ lines: [] }],
};

/** By the name that stands in the text where the picture goes. */
const PICTURES: Readonly<Record<string, Picture>> = {
  lamp: {
    caption:
      'Known lamp, 80x24: a reading half a degree off is asked about, the vernier is drawn as it was understood.',
    form: halfWay,
    keys: [tab, "230°56'", enter],
    columns: 80,
    rows: 24,
  },
  tube: {
    caption:
      'Unknown tube, 80x24: readings on the circle, the lines of the likeliest tube, the differences between them.',
    form: demoBench,
    keys: [tab, tab],
    columns: 80,
    rows: 24,
  },
  answer: { caption: 'The answer, 80x24.', form: demoBench, keys: [tab, tab, tab], columns: 80, rows: 24 },
  wide: {
    caption: 'The same tube with room, 140x40.',
    form: demoBench,
    keys: [tab, tab],
    columns: 140,
    rows: 40,
  },
};

function frame({ form, keys, columns, rows }: Picture): string {
  const bench = openBench(form, undefined, analyseForm);
  bench.store.dispatch({ type: 'kept', keeping: { kind: 'saved' }, notice: null, fileName: 'bench.json' });
  bench.type(...keys);
  const text = renderToString(
    <BenchScreen state={bench.state()} columns={columns} rows={rows} ascii={false} />,
    { columns },
  );
  return text
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
}

const PLACE = /(<!-- picture of the bench screen: (\w+) -->\n)[\s\S]*?(<!-- end of the picture -->)/g;

/** A guide's text with the pictures that it asks for as they are now. Throws where it asks for none, or for an unknown one. */
export function withScreens(guide: string): string {
  if (guide.search(PLACE) < 0) throw new Error('there is no place for a picture of the bench screen');
  return guide.replace(PLACE, (_, begin: string, name: string, end: string) => {
    const picture = PICTURES[name];
    if (picture === undefined) throw new Error(`there is no picture of the bench screen named ${name}`);
    return `${begin}\n${picture.caption}\n\n\`\`\`text\n${frame(picture)}\n\`\`\`\n\n${end}`;
  });
}
