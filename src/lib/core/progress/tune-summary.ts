import { RUST, type Rust, type SettledTempo } from '../practice/standing';
import type { Standings } from '../practice/standings';
import { tuneState, type LinkState, type TuneState } from '../plan/tune-state';
import { numberWord } from '../../texts/number-words';
import { tempoWord } from '../plan/words';
import type { Moment } from '../time/moment';
import type { Id, Origin, Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';

/** A tune as the list of tunes shows it. Plain data. */
export interface TuneSummary {
  tuneId: Id;
  title: string;
  tuning: string;
  form: string;
  goal: number;
  /** The layer in the hands, by name. */
  layer: string;
  /** The tune's tempo now: that of its slowest link; `null` when nothing has been played. */
  settled: SettledTempo | null;
  rust: Rust;
  /** On the board, repeats not written out. */
  measures: number;
  /** Different measures. */
  figures: number;
  settledFigures: number;
  /** Settled figures among all, 0 to 1. */
  settledShare: number;
  lastPlayed: Moment | null;
  archived: boolean;
  origin: Origin;
  /** Where the tune stands, in a few words: `Seven of nine measures settled`. */
  state: string;
}

/** All of it is settled, at its goal or over it. */
export function isAtGoal({ settled, settledShare, goal }: TuneSummary): boolean {
  return settledShare === 1 && settled !== null && settled.tempo >= goal;
}

/** All tunes that are not deleted, those put away included, in the order given. */
export function tuneSummaries(tunes: readonly Tune[], standings: Standings): TuneSummary[] {
  return tunes.filter(({ deletedAt }) => deletedAt === null).map((tune) => tuneSummary(tune, standings));
}

function tuneSummary(tune: Tune, standings: Standings): TuneSummary {
  const { id, title, form, archived, origin } = tune;
  const state = tuneState(tune, standings, standings.now);
  const measures = tune.parts.reduce((sum, part) => sum + part.measures.length, 0);
  const common = { tuneId: id, title, form, archived, origin, measures, tuning: tuningName(tune.tuning) };
  if (!state) {
    const none = { settled: null, rust: 'fresh' as const, figures: 0, settledFigures: 0, settledShare: 0 };
    return {
      ...common,
      ...none,
      goal: tune.goalTempo,
      layer: '',
      lastPlayed: null,
      state: 'No measures yet',
    };
  }
  const settled = standings.tuneSettled(tune, state.map.layer.id)?.settled ?? null;
  const settledFigures = state.figures.filter(({ standing }) => standing.isSettled).length;
  const rust = rustOf(state);
  return {
    ...common,
    ...{ goal: state.goal, layer: state.map.layer.name, settled, rust, settledFigures },
    figures: state.figures.length,
    settledShare: settledFigures / state.figures.length,
    lastPlayed: lastPlayed(state),
    state: stateWords(state, settled, settledFigures, rust),
  };
}

const allOf = ({ figures, seams, parts, whole }: TuneState): LinkState[] => [
  ...figures,
  ...seams,
  ...parts,
  whole,
];

/**
 * The worst rust that at least a quarter of the played figures and seams share: one cold measure is not a cold tune. A tune of
 * which nothing was played since it was last played through has faded as its whole has.
 */
function rustOf({ figures, seams, whole, daysIdle }: TuneState): Rust {
  const played = [...figures, ...seams].filter(({ standing }) => standing.passes > 0);
  const asOne = whole.daysAway === daysIdle ? RUST.indexOf(whole.rust) : 0;
  const worst = [...RUST].reverse();
  return (
    worst.find(
      (rust) =>
        asOne >= RUST.indexOf(rust) ||
        played.filter((link) => RUST.indexOf(link.rust) >= RUST.indexOf(rust)).length * 4 >=
          Math.max(1, played.length),
    ) ?? 'fresh'
  );
}

function lastPlayed(state: TuneState): Moment | null {
  return allOf(state)
    .map(({ standing }) => standing.lastPlayed)
    .filter((moment) => moment !== null)
    .reduce<Moment | null>((latest, moment) => (latest && latest.at >= moment.at ? latest : moment), null);
}

function stateWords(
  state: TuneState,
  settled: SettledTempo | null,
  settledFigures: number,
  rust: Rust,
): string {
  if (!settled) return 'Not begun';
  const fading = rust === 'fresh' ? '' : `, ${rust}`;
  const { figures, seams, parts, whole, goal } = state;
  if (settledFigures < figures.length) {
    return `${someOf(settledFigures)} of ${numberWord(figures.length)} measures settled${fading}`;
  }
  const open = seams.filter(({ standing }) => !standing.isSettled).length;
  if (open > 0)
    return `Every measure settled, ${numberWord(open)} of ${numberWord(seams.length)} seams open${fading}`;
  if (!whole.standing.isSettled) {
    const joined = parts.filter(({ standing }) => standing.isSettled).length;
    return joined < parts.length
      ? `${someOf(joined)} of ${numberWord(parts.length)} parts joined${fading}`
      : `Parts joined, the whole is next${fading}`;
  }
  return settled.tempo >= goal
    ? `At goal${fading}`
    : `Whole tune holds at ${tempoWord(whole.tempo)}${fading}`;
}

function someOf(count: number): string {
  const word = count === 0 ? 'none' : numberWord(count);
  return word.charAt(0).toUpperCase() + word.slice(1);
}
