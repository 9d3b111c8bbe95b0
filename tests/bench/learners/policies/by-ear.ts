import type { PlayedTune, Practice, Stretch } from '../practice';

/** Tempos that a person keeps in the head, one a stretch: up a little after a clean pass, down after misses. */
export class OwnTempos {
  readonly #up: number;
  readonly #missesToFall: number;
  readonly #start: number;
  readonly #tempos = new Map<string, { tempo: number; misses: number }>();

  /**
   * `start`: where one begins, as a share of the goal: half of it is common practice. `up`: the step after a clean pass, as
   * a share of the tempo.
   */
  constructor(start = 0.5, up = 0.04, missesToFall = 2) {
    this.#start = start;
    this.#up = up;
    this.#missesToFall = missesToFall;
  }

  of(stretch: Stretch): number {
    return this.#at(stretch).tempo;
  }

  /** Plays one pass at the stretch's own tempo and moves it. */
  play(practice: Practice, stretch: Stretch): boolean {
    const own = this.#at(stretch);
    const clean = practice.play(stretch, own.tempo).outcome === 'clean';
    own.misses = clean ? 0 : own.misses + 1;
    if (clean) own.tempo = Math.min(1.08 * stretch.tune.goal, own.tempo * (1 + this.#up));
    else if (own.misses >= this.#missesToFall) {
      own.tempo = Math.max(20, own.tempo / (1 + this.#up));
      own.misses = 0;
    }
    return clean;
  }

  #at({ tune, from, count }: Stretch): { tempo: number; misses: number } {
    const key = `${tune.id} ${tune.figures.slice(from, from + count).join()}`;
    let own = this.#tempos.get(key);
    if (!own) this.#tempos.set(key, (own = { tempo: this.#start * tune.goal, misses: 0 }));
    return own;
  }
}

export const wholeOf = (tune: PlayedTune): Stretch => ({ tune, from: 0, count: tune.figures.length });

/** The first place of each different measure. */
export function measuresOf(tune: PlayedTune): Stretch[] {
  const { figures } = tune;
  return figures.flatMap((figure, from) =>
    figures.indexOf(figure) === from ? [{ tune, from, count: 1 }] : [],
  );
}

/** The first place of each different pair of neighbours. */
export function pairsOf(tune: PlayedTune): Stretch[] {
  const { figures } = tune;
  const seen = new Set<string>();
  return figures.slice(1).flatMap((figure, from) => {
    const pair = `${figures[from]} ${figure}`;
    if (seen.has(pair)) return [];
    seen.add(pair);
    return [{ tune, from, count: 2 }];
  });
}

/** The tune cut into stretches of so many measures. */
export function cutOf(tune: PlayedTune, count: number): Stretch[] {
  return tune.figures.flatMap((_, from) => (from % count === 0 ? [{ tune, from, count }] : []));
}
