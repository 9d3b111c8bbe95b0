import { SvelteMap } from 'svelte/reactivity';
import type { Id } from '$lib/core/tune/tune';

const KEY = 'phrasewright-layers';

/**
 * The layer that the learner chose by hand for each tune, kept on this device. It is no part of the book: a layer that is
 * gone is passed over by whoever asks.
 */
class ChosenLayers {
  readonly #chosen = new SvelteMap<Id, Id>(readKept());

  of(tuneId: Id): Id | null {
    return this.#chosen.get(tuneId) ?? null;
  }

  choose(tuneId: Id, layerId: Id): void {
    this.#chosen.set(tuneId, layerId);
    this.#keep();
  }

  forget(): void {
    this.#chosen.clear();
    this.#keep();
  }

  #keep(): void {
    try {
      localStorage.setItem(KEY, JSON.stringify([...this.#chosen]));
    } catch {
      // full or switched off: the choice holds until the page is closed
    }
  }
}

function readKept(): [Id, Id][] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isPair) : [];
  } catch {
    // storage switched off, or not what was written
    return [];
  }
}

function isPair(pair: unknown): pair is [Id, Id] {
  return Array.isArray(pair) && pair.length === 2 && pair.every((id) => typeof id === 'string');
}

export const chosenLayers = new ChosenLayers();
