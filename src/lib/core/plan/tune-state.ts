import { practiceDay, type PracticeDay } from '../time/practice-day';
import type { Moment } from '../time/moment';
import type { Passage, PassageKey } from '../tune/passage';
import type { Id, Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';
import type { Rust, Standing } from '../practice/standing';
import { goalOf, layerMaps, type LayerMap, type Link } from './tune-map';

/** Where a plan looks passages up: the standings of the log, at the moment of the plan. */
export interface StandingSource {
  of(passage: Passage, key?: PassageKey): Standing;
  isPlayed(key: PassageKey): boolean;
  /** Rises whenever passes change a standing of the tune. */
  revisionOf(tuneId: Id): number;
  /** Changes when standings of unplayed passages may. */
  readonly expectation: number;
  /** The practice day that standings are read on. */
  readonly today: PracticeDay;
}

/** A passage with what the log says of it. */
export interface LinkState<L extends Link = Link> {
  link: L;
  standing: Standing;
  /** Beats per minute at which it comes out clean, 0 when never played. */
  tempo: number;
  /** Recall (0..1) counting what it is part of: a part or whole tune played since kept its links too. */
  recall: number;
  rust: Rust;
  /** Practice days since it was last played, alone or in its surroundings; `null` when never. */
  daysAway: number | null;
}

/** A tune that can be played, in the layer that is in the hands. */
export interface TuneState {
  tune: Tune;
  map: LayerMap;
  goal: number;
  tuning: string;
  figures: LinkState<LayerMap['figures'][number]>[];
  seams: LinkState<LayerMap['seams'][number]>[];
  parts: LinkState<LayerMap['parts'][number]>[];
  whole: LinkState<LayerMap['whole']>;
  /** Looks up a passage that is in none of the lists. */
  look<L extends Link>(link: L): LinkState<L>;
  /** The layer to learn next, when there is one. */
  next: LayerMap | null;
  begun: boolean;
  /** Practice days since anything of it was played; `null` when nothing has been. */
  daysIdle: number | null;
  /** Every figure and seam is settled. */
  linksSettled: boolean;
  /** 0 (nothing played) to 1 (every figure and seam at goal); figures count for more. */
  nearness: number;
}

function leastDays(links: readonly LinkState[]): number | null {
  const days = links.map(({ daysAway }) => daysAway).filter((day) => day !== null);
  return days.length > 0 ? Math.min(...days) : null;
}

const SEAMS_SHARE = 0.3;

/** The mean share of the goal that links have reached; 1 for none. */
function reached(links: readonly LinkState[], goal: number): number {
  if (links.length === 0) return 1;
  return links.reduce((sum, { tempo }) => sum + Math.min(1, tempo / goal), 0) / links.length;
}

/** The state of a tune, or `null` when nothing of it can be played. */
export function tuneState(tune: Tune, standings: StandingSource, now: Moment): TuneState | null {
  const maps = layerMaps(tune);
  const depth = depthInHand(maps, standings);
  const map = maps[depth];
  if (!map) return null;
  const look = <L extends Link>(link: L): LinkState<L> => lookUp(link, standings, now);
  const whole = look(map.whole);
  const parts = map.parts.map(look);
  const figures = map.figures.map(look);
  const seams = map.seams.map(look);
  for (const part of parts) {
    for (const place of part.link.figures) keepAlive(figures[place]!, part);
    for (const place of part.link.seams) keepAlive(seams[place]!, part);
  }
  for (const inner of [...parts, ...figures, ...seams]) keepAlive(inner, whole);
  const goal = goalOf(tune);
  const links = [...figures, ...seams];
  return {
    ...{ tune, map, goal, figures, seams, parts, whole, look },
    tuning: tuningName(tune.tuning),
    next: maps[depth + 1] ?? null,
    daysIdle: leastDays([whole, ...parts, ...links]),
    begun: [whole, ...parts, ...links].some(({ standing }) => standing.passes > 0),
    linksSettled: links.every(({ standing }) => standing.isSettled),
    nearness: (1 - SEAMS_SHARE) * reached(figures, goal) + SEAMS_SHARE * reached(seams, goal),
  };
}

/** The layer in the hands; `null` when nothing of the tune can be played. */
export function layerInHand(tune: Tune, standings: StandingSource): LayerMap | null {
  const maps = layerMaps(tune);
  return maps[depthInHand(maps, standings)] ?? null;
}

/** The deepest layer of which something that the layer itself brings has been played. */
function depthInHand(maps: readonly LayerMap[], standings: StandingSource): number {
  for (let depth = maps.length - 1; depth > 0; depth--) {
    if (newFigures(maps[depth - 1]!, maps[depth]!).some(({ key }) => standings.isPlayed(key))) {
      return depth;
    }
  }
  return 0;
}

/** The figures of a layer that the layer below has not, in playing order. */
export function newFigures(below: LayerMap, layer: LayerMap): LayerMap['figures'][number][] {
  const known = new Set(below.figures.map(({ key }) => key));
  return layer.figures.filter(({ key }) => !known.has(key));
}

function lookUp<L extends Link>(link: L, standings: StandingSource, now: Moment): LinkState<L> {
  const standing = standings.isPlayed(link.key)
    ? standings.of(link.passage, link.key)
    : new Unplayed(link, standings);
  const { settled, lastPlayed, recall, rust } = standing;
  const tempo = settled && Number.isFinite(settled.tempo) ? settled.tempo : 0;
  return { link, standing, tempo, recall, rust, daysAway: lastPlayed ? daysBetween(lastPlayed, now) : null };
}

/** The prior behind `comfortable` is worked out only when asked for: a large book has thousands of these. */
class Unplayed implements Standing {
  readonly settled = null;
  readonly rust = 'fresh';
  readonly recall = 0;
  readonly passes = 0;
  readonly days = 0;
  readonly cleanOfLast20 = 0;
  readonly ofLast = 0;
  readonly lastPlayed = null;
  readonly lastCleanTempo = null;
  readonly isSettled = false;
  readonly key: PassageKey;
  readonly passage: Passage;
  readonly #standings: StandingSource;

  constructor({ key, passage }: Link, standings: StandingSource) {
    this.key = key;
    this.passage = passage;
    this.#standings = standings;
  }

  get comfortable(): number {
    return this.#standings.of(this.passage).comfortable;
  }
}

/** Never negative: a log from a clock set wrong may lie in the future. */
function daysBetween(then: Moment, now: Moment): number {
  return Math.max(0, practiceDay(now) - practiceDay(then));
}

function keepAlive(inner: LinkState, outer: LinkState): void {
  if (outer.daysAway === null || inner.daysAway === null || outer.daysAway >= inner.daysAway) return;
  inner.daysAway = outer.daysAway;
  if (outer.recall <= inner.recall) return;
  inner.recall = outer.recall;
  inner.rust = outer.rust;
}
