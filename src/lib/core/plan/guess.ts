import { handTraits, likeness } from '../practice/prior';
import { passageShape } from '../practice/passage-shape';
import type { Standing } from '../practice/standing';
import { measureLabel, passageName } from '../tune/passage-name';
import { figurePassages, placesOfFigure } from '../tune/places';
import type { Passage } from '../tune/passage';
import type { Id, Tune } from '../tune/tune';
import type { StandingSource } from './tune-state';
import { listed } from '../../texts/figures';
import { tempoWord } from './words';

const RELATIVES = 3;

/** Where the first tempo of a passage that has not been played comes from, in one sentence. */
export function guessSentence(tune: Tune, standings: StandingSource, passage: Passage): string {
  if (passage.kind === 'figure') return likeMeasures(tune, standings, passage.figureId);
  if (passage.kind === 'seam') {
    const { tuneId, fromFigureId, toFigureId } = passage;
    const ends = [...new Set([fromFigureId, toFigureId])].map((figureId) =>
      atTempo(tune, figureId, standings.of({ kind: 'figure', tuneId, figureId })),
    );
    return `The guess goes by what it joins, ${listed(ends)}: a join is expected about a tenth slower than its measures.`;
  }
  const links = passageShape(tune, passage)?.links ?? [];
  const slowest = links
    .map((link) => standings.of(link))
    .reduce<Standing | null>(
      (least, one) => (one.settled && one.settled.tempo < (least?.settled?.tempo ?? Infinity) ? one : least),
      null,
    );
  if (!slowest?.settled) return 'Nothing in it has been played, so the guess goes by the goal alone.';
  const name = passageName(tune, slowest.passage);
  return `The guess goes by the slowest link in it, ${lower(name)} at ${tempoWord(slowest.settled.tempo)}, and a little under.`;
}

/** A figure's guess comes from the played measures of its tune, the more alike to the hands the more they weigh (prior.ts). */
function likeMeasures(tune: Tune, standings: StandingSource, figureId: Id): string {
  const own = tune.figures.find(({ id }) => id === figureId);
  const traits = own ? handTraits(own) : null;
  const played = tune.layers
    .flatMap(({ id }) => figurePassages(tune, id))
    .filter((one, index, all) => all.findIndex((other) => other.figureId === one.figureId) === index)
    .map((one) => ({ id: one.figureId, standing: standings.of(one) }))
    .filter(({ id, standing }) => id !== figureId && standing.settled !== null)
    .map(({ id, standing }) => {
      const figure = tune.figures.find((other) => other.id === id);
      return { id, standing, alike: likeness(traits, figure ? handTraits(figure) : null) };
    })
    .sort((a, b) => b.alike - a.alike);
  if (played.length === 0) {
    return 'Nothing of this tune has been played, so the guess goes by what your other measures reach of their goals; without any, by half the goal.';
  }
  if (traits === null) {
    const tempos = played.map(({ standing }) => standing.settled?.tempo ?? 0);
    const span = `${tempoWord(Math.min(...tempos))} to ${tempoWord(Math.max(...tempos))}`;
    return `Without its tab, the guess goes by the measures of this tune that have been played, ${span}, and by what you usually reach of a goal.`;
  }
  const nearest = played.slice(0, RELATIVES).map(({ id, standing }) => atTempo(tune, id, standing));
  return `The guess goes by the measures most like it to the hands, ${listed(nearest)}, and by what you usually reach of a goal.`;
}

function atTempo(tune: Tune, figureId: Id, { settled }: Standing): string {
  const place = placesOfFigure(tune, figureId)[0];
  const label = place ? measureLabel(place) : 'a measure';
  return settled ? `${label} at ${tempoWord(settled.tempo)}` : `${label} not played yet`;
}

function lower(name: string): string {
  return name.charAt(0).toLowerCase() + name.slice(1);
}
