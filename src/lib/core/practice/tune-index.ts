import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import type { Id, Tune } from '../tune/tune';
import { layerLinks, passageShape, type LayerLinks, type PassageShape } from './passage-shape';
import { handTraits } from './prior';

/** A tune's figures as priors need them. */
export interface IndexedFigure {
  key: PassageKey;
  traits: number | null;
}

export interface IndexedTune {
  tune: Tune;
  goal: number;
  figures: readonly IndexedFigure[];
}

/** With a goal that is no tempo, this stands in: a dance's (SCIENCE.md section 3: 64 beats in 32 s). */
const USUAL_GOAL = 120;

/** Tunes by id and what their passages play, worked out once. Deleted tunes are not in it. */
export class TuneIndex {
  readonly #tunes = new Map<Id, IndexedTune>();
  readonly #shapes = new Map<PassageKey, PassageShape | null>();
  readonly #layers = new WeakMap<Tune, Map<Id, LayerLinks>>();

  constructor(tunes: readonly Tune[]) {
    for (const tune of tunes) {
      if (tune.deletedAt !== null) continue;
      const figures = tune.figures.map((figure) => ({
        key: passageKey({ kind: 'figure', tuneId: tune.id, figureId: figure.id }),
        traits: handTraits(figure),
      }));
      this.#tunes.set(tune.id, { tune, goal: playableGoal(tune.goalTempo), figures });
    }
  }

  tune(id: Id): IndexedTune | null {
    return this.#tunes.get(id) ?? null;
  }

  /** What a passage plays; `null` when its tune is unknown or it is no longer in it. */
  shape(passage: Passage, key: PassageKey): PassageShape | null {
    const known = this.#shapes.get(key);
    if (known !== undefined) return known;
    const tune = this.#tunes.get(passage.tuneId)?.tune;
    const shape = tune ? orNull(() => passageShape(tune, passage)) : null;
    this.#shapes.set(key, shape);
    return shape;
  }

  layer(tune: Tune, layerId: Id): LayerLinks {
    let layers = this.#layers.get(tune);
    if (!layers) this.#layers.set(tune, (layers = new Map()));
    let links = layers.get(layerId);
    if (!links)
      layers.set(layerId, (links = orNull(() => layerLinks(tune, layerId)) ?? { figures: [], seams: [] }));
    return links;
  }
}

function playableGoal(goal: number): number {
  return goal >= TEMPO_MIN && goal <= TEMPO_MAX ? goal : USUAL_GOAL;
}

/** A damaged tune (a measure that names no figure) throws while it is walked; its passages are then kept out. */
function orNull<T>(walk: () => T): T | null {
  try {
    return walk();
  } catch {
    return null;
  }
}
