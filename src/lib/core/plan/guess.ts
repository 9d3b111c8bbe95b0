import { handTraits, likeness } from '../practice/prior';
import { passageShape } from '../practice/passage-shape';
import type { Standing } from '../practice/standing';
import { measureLabel, passageName } from '../tune/passage-name';
import { figurePassages, placesOfFigure } from '../tune/places';
import type { Passage } from '../tune/passage';
import type { Id, Tune } from '../tune/tune';
import type { StandingSource } from './tune-state';
import { say } from '../../texts/explain';
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
    return say.guessByEnds(ends);
  }
  const links = passageShape(tune, passage)?.links ?? [];
  const slowest = links
    .map((link) => standings.of(link))
    .reduce<Standing | null>(
      (least, one) => (one.settled && one.settled.tempo < (least?.settled?.tempo ?? Infinity) ? one : least),
      null,
    );
  if (!slowest?.settled) return say.guessByGoal;
  return say.guessBySlowest(passageName(tune, slowest.passage), tempoWord(slowest.settled.tempo));
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
  if (played.length === 0) return say.guessByBook;
  if (traits === null) {
    const tempos = played.map(({ standing }) => standing.settled?.tempo ?? 0);
    return say.guessWithoutTab(tempoWord(Math.min(...tempos)), tempoWord(Math.max(...tempos)));
  }
  const nearest = played.slice(0, RELATIVES).map(({ id, standing }) => atTempo(tune, id, standing));
  return say.guessByLike(nearest);
}

function atTempo(tune: Tune, figureId: Id, { settled }: Standing): string {
  const place = placesOfFigure(tune, figureId)[0];
  const label = place ? measureLabel(place) : null;
  return settled ? say.measureAt(label, tempoWord(settled.tempo)) : say.measureNotPlayed(label);
}
