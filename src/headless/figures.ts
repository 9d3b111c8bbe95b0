import { countOf, toldNearSame } from '../lib/core/notation/near-same-words';
import { changedMeasures, figuresNewIn, placesShowing } from '../lib/core/tune/layer-figures';
import { countToLearn } from '../lib/core/tune/near-same';
import { measureLabel } from '../lib/core/tune/passage-name';
import { figurePassages } from '../lib/core/tune/places';
import type { Id, Layer, Tune } from '../lib/core/tune/tune';
import { readBook } from './arguments';
import { Trouble } from './trouble';
import type { Verb } from './verbs';

/** The different measures of a tune in one layer: which places share each, and which are nearly the same. */
export const figures: Verb = ({ book: file, tune: wanted, layer: wantedLayer }) => {
  const { tunes } = readBook(file);
  const tune = tunes.find(({ id }) => id === wanted);
  if (!tune)
    throw new Trouble(`Name a tune of the book by its id with --tune ID: saw ${wanted ?? 'nothing'}.`);
  const layer = readLayer(tune, wantedLayer);
  const labels = (figureId: Id): string[] => placesShowing(tune, layer.id, figureId).map(measureLabel);
  const fresh = new Set(figuresNewIn(tune, layer.id));
  const changed = new Set(changedMeasures(tune, layer.id));
  const { measures, figures: toLearn } = countToLearn(tune, layer.id);
  return {
    ...{ tuneId: tune.id, title: tune.title, layer: { id: layer.id, name: layer.name }, measures, toLearn },
    changed: tune.parts.flatMap(({ name: part, measures: all }) =>
      all.flatMap(({ id }, index) => (changed.has(id) ? [measureLabel({ part, index })] : [])),
    ),
    figures: figurePassages(tune, layer.id).map(({ figureId }) => {
      const content = tune.figures.find(({ id }) => id === figureId);
      const isNew = fresh.has(figureId);
      return { id: figureId, measures: labels(figureId), beats: content?.beats, isNew };
    }),
    nearSame: toldNearSame(tune, layer.id).map(({ near, words }) => ({
      figures: [near.first.id, near.second.id],
      measures: [labels(near.first.id), labels(near.second.id)],
      beats: near.differences.map(({ onset }) => countOf(onset, tune.meter)),
      words,
    })),
  };
};

function readLayer(tune: Tune, wanted: string | undefined): Layer {
  const layer = tune.layers.find(({ id, name }, at) =>
    wanted ? id === wanted || name === wanted : at === 0,
  );
  if (layer) return layer;
  const names = tune.layers.map(({ name }) => name).join(', ');
  throw new Trouble(`${tune.title} has the layers ${names}: saw --layer ${wanted}.`);
}
