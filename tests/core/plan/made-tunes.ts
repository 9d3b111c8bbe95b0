import { DAY_MS, HOUR_MS, type Moment } from '$lib/core/time/moment';
import { practiceDay } from '$lib/core/time/practice-day';
import type { Meter } from '$lib/core/rhythm/meter';
import type { Standing } from '$lib/core/practice/standing';
import type { StandingSource } from '$lib/core/plan/tune-state';
import { emptyParts, makeTune, type TuneDraft } from '$lib/core/tune/make-tune';
import { passageKey, type Passage, type PassageKey } from '$lib/core/tune/passage';
import { figurePassages, firstLayer, partPassages, seamPassages } from '$lib/core/tune/places';
import type { Tune } from '$lib/core/tune/tune';
import type { Tuning } from '$lib/core/tune/tuning';

export const G_TUNING: Tuning = [67, 50, 55, 59, 62];
export const DOUBLE_C: Tuning = [67, 48, 55, 60, 62];

/** 18:00 in New York on 25 November 2026. */
export const NOW: Moment = { at: Date.UTC(2026, 10, 25, 23), offsetMin: -300 };

export function daysAgo(days: number): Moment {
  return { at: NOW.at - days * DAY_MS - HOUR_MS, offsetMin: NOW.offsetMin };
}

interface TuneWish {
  title?: string;
  form?: string;
  counts?: readonly number[];
  goalTempo?: number;
  tuning?: Tuning;
  meter?: Meter;
}

/** An empty tune whose ids begin with its title, so that failures can be read. */
export function tuneOf(wish: TuneWish = {}): Tune {
  const { title = 'Mill Race', form = 'AABB', counts = [4, 4], goalTempo = 100, meter = '2/2' } = wish;
  let made = 0;
  const draft: TuneDraft = {
    ...{ title, form, goalTempo, meter, tuning: wish.tuning ?? G_TUNING },
    ...{ capo: 0, spike: 0, key: '', pickup: null, parts: emptyParts(form, counts, meter) },
  };
  return makeTune(draft, () => `${title.replaceAll(' ', '-')}~${made++}`, daysAgo(100));
}

/** Every passage that the tune's plain layer offers, by kind, in playing order. */
export function passagesOf(tune: Tune) {
  const layerId = firstLayer(tune).id;
  return {
    figures: figurePassages(tune, layerId),
    seams: seamPassages(tune, layerId),
    parts: partPassages(tune, layerId),
    whole: { kind: 'tune' as const, tuneId: tune.id, layerId },
  };
}

/** Standings as a test sets them: a passage not in the table was never played. */
export class TableOfStandings implements StandingSource {
  readonly #table = new Map<PassageKey, Standing>();
  readonly expectation = 0.5;
  readonly today = practiceDay(NOW);
  #revision = 0;

  revisionOf(): number {
    return this.#revision;
  }

  of(passage: Passage): Standing {
    return this.#table.get(passageKey(passage)) ?? unplayed(passage);
  }

  isPlayed(key: PassageKey): boolean {
    return this.#table.has(key);
  }

  /** Marks a passage as played: settled at `tempo`, last played so many days ago. */
  set(passage: Passage, tempo: number, change: Partial<Standing> & { daysAgo?: number } = {}): this {
    const { daysAgo: days = 1, ...rest } = change;
    this.#revision += 1;
    this.#table.set(passageKey(passage), {
      ...unplayed(passage),
      ...{ settled: { tempo, low: tempo * 0.94, high: tempo * 1.06 }, comfortable: tempo * 0.88 },
      ...{ recall: 0.95, passes: 24, days: 4, cleanOfLast20: 17, ofLast: 20 },
      ...{ lastPlayed: daysAgo(days), lastCleanTempo: Math.round(tempo), isSettled: true },
      ...rest,
    });
    return this;
  }

  setAll(
    passages: readonly Passage[],
    tempo: number,
    change: Parameters<TableOfStandings['set']>[2] = {},
  ): this {
    for (const passage of passages) this.set(passage, tempo, change);
    return this;
  }
}

function unplayed(passage: Passage): Standing {
  return {
    key: passageKey(passage),
    passage,
    ...{ settled: null, comfortable: 55, rust: 'fresh' as const, recall: 0, passes: 0, days: 0 },
    ...{ cleanOfLast20: 0, ofLast: 0, lastPlayed: null, lastCleanTempo: null, isSettled: false },
  };
}
