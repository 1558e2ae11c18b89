/** Who, when, which station, and how the instrument was set up. */
import type { Analysis } from '../../../analysis/types.ts';
import { formatCount } from '../../../angle/format-angle.ts';
import type { Bench, Method } from '../../../record/bench.ts';
import { apexText } from '../../apex-text.ts';
import { unitMark } from '../../quantity-text.ts';
import { asFacts, type Block, type Section, table } from '../document.ts';
import { settingText } from './reading-text.ts';

const aboutOrder = [
  'date',
  'observers',
  'station',
  'lamp',
  'tube',
  'prism',
  'slit',
  'temperature',
  'remarks',
];

export function setupSection({ bench, calibration }: Analysis): Section {
  const apex = apexText(bench, calibration.settingScatter);
  return {
    title: 'Experiment and set-up',
    blocks: [...aboutTable(bench), ...instrumentTable(bench, apex)].map(asFacts),
  };
}

function aboutTable(bench: Bench): Block[] {
  const given = Object.keys(bench.about);
  const keys = [
    ...aboutOrder.filter((key) => given.includes(key)),
    ...given.filter((key) => !aboutOrder.includes(key)),
  ];
  const rows = keys
    .map((key) => [key, [bench.about[key] ?? ''].flat().join(', ')])
    .filter(([, value]) => value !== '');
  return table('about', 'Who measured what, when and with what.', ['item', 'as written in the record'], rows);
}

const methodText: Readonly<Record<Method, string>> = {
  central: 'central image and one side: deviation = reading of the line - reading of the central image',
  'both-sides': 'both sides: deviation = half the angle between the line on the left and on the right',
  scale: 'arbitrary linear scale or drum: no angle is measured',
};

function instrumentTable(bench: Bench, apex: string): Block[] {
  const onCircle = bench.method !== 'scale';
  const rows = [
    ['method', methodText[bench.method]],
    ['least count', onCircle ? formatCount(bench.leastCount) : `${bench.leastCount}${unitMark('scale')}`],
    ...(bench.scaleDivisionArcmin === null
      ? []
      : [['one division of the main scale', formatCount(bench.scaleDivisionArcmin)]]),
    ...(onCircle ? [['windows read', bench.windows === 2 ? 'both (opposite verniers)' : 'one']] : []),
    // The prism of a scale stays where its maker has put it.
    ...(onCircle ? [['prism', prismText(bench)]] : []),
    ...(apex === '' ? [] : [['apex angle A', apex]]),
    ...(bench.central.length === 0
      ? []
      : [['central image', bench.central.map((setting) => settingText(setting, bench)).join('; ')]]),
    ...bench.known.map((lamp, at) => [
      bench.known.length === 1 ? 'known lamp' : `known lamp ${at + 1}`,
      `${lamp.name === '' ? 'not named' : lamp.name}, ${countText(lamp.lines.length, 'line')}`,
    ]),
    ...bench.tubes.map((tube) => [
      'unknown tube',
      `${tube.label}, ${countText(tube.lines.length, 'line')}; can be ${tube.shelf === null ? 'any listed tube' : tube.shelf.join(', ')}`,
    ]),
  ];
  return table('set-up', 'The instrument and what was looked at.', ['item', 'set-up'], rows);
}

const countText = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

function prismText(bench: Bench): string {
  if (bench.prism === 'each-line') return 'set to minimum deviation anew for every line';
  return bench.setAtNm === null ? 'set once and left' : `set once, at ${bench.setAtNm} nm, and left`;
}
