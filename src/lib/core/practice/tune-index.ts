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

/** A passage's number in its index: what the fold keeps of it is looked up by number, which costs less than by key. */
export type Slot = number;

/** A passage's shape with the slots of what it is made of, in the same order. */
export interface IndexedShape extends PassageShape {
  slot: Slot;
  linkSlots: readonly Slot[];
  partSlots: readonly Slot[];
}

/** With a goal that is no tempo, this stands in: a dance's (SCIENCE.md section 3: 64 beats in 32 s). */
const USUAL_GOAL = 120;

/** Tunes by id and what their passages play, worked out once. Deleted tunes are not in it. */
export class TuneIndex {
  readonly #tunes = new Map<Id, IndexedTune>();
  readonly #shapes = new Map<PassageKey, IndexedShape | null>();
  readonly #slots = new Map<PassageKey, Slot>();
  readonly #passages: { passage: Passage; key: PassageKey }[] = [];
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

  /** The number of a passage, given to it when it is first asked for. */
  slotOf(passage: Passage, key: PassageKey): Slot {
    let slot = this.#slots.get(key);
    if (slot === undefined) {
      slot = this.#passages.push({ passage, key }) - 1;
      this.#slots.set(key, slot);
    }
    return slot;
  }

  /** The number of a passage that has one. */
  knownSlot(key: PassageKey): Slot | undefined {
    return this.#slots.get(key);
  }

  /** The passage of a number. Throws a RangeError for one that was not given. */
  at(slot: Slot): { passage: Passage; key: PassageKey } {
    const known = this.#passages[slot];
    if (!known) throw new RangeError(`Slot ${slot} of ${this.#passages.length} was asked for`);
    return known;
  }

  /** What a passage plays; `null` when its tune is unknown or it is no longer in it. */
  shape(passage: Passage, key: PassageKey): IndexedShape | null {
    const known = this.#shapes.get(key);
    if (known !== undefined) return known;
    const tune = this.#tunes.get(passage.tuneId)?.tune;
    const shape = tune ? orNull(() => passageShape(tune, passage)) : null;
    const indexed = shape && {
      ...shape,
      slot: this.slotOf(passage, key),
      linkSlots: shape.links.map((link, place) => this.slotOf(link, shape.linkKeys[place]!)),
      partSlots: shape.parts.map((part) => this.slotOf(part, passageKey(part))),
    };
    this.#shapes.set(key, indexed);
    return indexed;
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
