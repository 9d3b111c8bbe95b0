import { say } from '../../texts/passage';
import type { Passage } from './passage';
import { partPlaces, passageStretches, type Place } from './places';
import type { Tune } from './tune';

/** A measure as it is printed on the board: `A2`. */
export function measureLabel({ part, index }: Pick<Place, 'part' | 'index'>): string {
  return `${part}${index + 1}`;
}

/** The labels of the measures that a passage plays, each once, in order: `['A2', 'A3']`. */
export function passageLabels(tune: Tune, passage: Passage): string[] {
  return [...new Set(passageStretches(tune, passage).map(measureLabel))];
}

/** A passage as a player would say it: `Measure 6, part B`. */
export function passageName(tune: Tune, passage: Passage): string {
  if (passage.kind === 'tune') return say.tune;
  if (passage.kind === 'part') return say.part(passage.part);
  const stretches = passageStretches(tune, passage);
  const first = stretches[0];
  const last = stretches.at(-1);
  if (!first || !last) return say.gone;
  if (passage.kind === 'figure') return say.measure(first.index + 1, first.part);
  if (passage.kind === 'phrase') return say.measures(first.index + 1, last.index + 1, first.part);
  if (first.part === last.part && last.index === first.index + 1) {
    return say.seam(first.index + 1, last.index + 1, first.part);
  }
  if (first.part === last.part && last.index === 0) {
    const measures = partPlaces(tune, tune.layers[0]?.id ?? '', first.part).length;
    if (first.index === measures - 1) return say.seamAround(first.index + 1, first.part);
  }
  return say.seamBetween(measureLabel(first), measureLabel(last));
}
