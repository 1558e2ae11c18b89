/** Safety at this experiment. Common practice, no source; local rules come first. */
import { list, type Section } from '../document.ts';

export const cautions: readonly string[] = [
  'The tube holder carries kilovolts: supply off and unplugged before a tube is touched or changed, one hand only near the holder while it is on.',
  'Keep to the duty limits written on the supply and the tube; many tubes stand half a minute on, half a minute off.',
  'A tube that has burned is hot: let it cool before it is touched.',
  'Mercury lamps burn only in their housing: their ultraviolet light harms eyes and skin. If one breaks: leave the room, let air in, tell the instructor.',
  'Never point the telescope at the sun or at a laser.',
  'Local rules and the instructor come first.',
];

export function cautionsSection(): Section {
  return {
    title: 'Cautions for whoever repeats the measurement (common practice, no source)',
    isSmall: true,
    blocks: list(cautions),
  };
}
