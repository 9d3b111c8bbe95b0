import type { DayRecord } from '../practice/passage-state';
import type { SealedSitting } from '../practice/records';
import type { SettledTempo, Standing } from '../practice/standing';
import type { Standings } from '../practice/standings';
import { saidDay } from '../time/date-words';
import { practiceDay } from '../time/practice-day';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { passageName } from '../tune/passage-name';
import { passageStretches } from '../tune/places';
import type { Tune } from '../tune/tune';
import { candidatesOf, type Candidate } from './candidates';
import { guessSentence } from './guess';
import { pinnedCandidates } from './pinned';
import { goalOf } from './tune-map';
import { tuneState } from './tune-state';
import { byDay, longerPasses, toldPasses, type ToldPass } from './told-passes';
import { say } from '../../texts/explain';
import { say as sayReason } from '../../texts/reason';
import { tempoWord } from './words';

export interface ExplainInput {
  tunes: readonly Tune[];
  sittings: readonly Pick<SealedSitting, 'at' | 'offsetMin' | 'drills' | 'log'>[];
  /** At the moment of the standings. */
  standings: Standings;
  passage: Passage;
}

/** Why a passage stands where it stands. Every list is of sentences that a person would say. */
export interface Explanation {
  key: PassageKey;
  /** Where it stands, in one sentence; alone when the tune, or the passage in it, is gone. */
  stands: string;
  /** Why a plan would take it up now. */
  why: string[];
  /** Where a drill of it begins, where it heads for, and why. */
  tempo: string[];
  /** The passes behind it, in all and day by day. */
  passes: string[];
  /** How the estimate and the memory of it moved. */
  moved: string[];
  settled: SettledTempo | null;
  /** Beats per minute. */
  goal: number;
  /** Where a drill begins. */
  comfortable: number;
  /** The newest passes that told something, the oldest first. */
  newest: ToldPass[];
  /** The estimate at the end of each practice day, the oldest first. */
  days: DayRecord[];
}

const DAYS_TOLD = 4;
/** An interval whose top is this much above its foot is called wide. */
const WIDE = 1.25;

export function explainPassage(input: ExplainInput): Explanation {
  const { tunes, standings, passage, sittings } = input;
  const key = passageKey(passage);
  const tune = tunes.find(({ id, deletedAt }) => id === passage.tuneId && deletedAt === null);
  const gone = !tune
    ? say.tuneGone
    : passageStretches(tune, passage).length === 0
      ? say.passageGone(tune.title)
      : null;
  if (!tune || gone !== null) return goneExplanation(key, gone ?? '');
  const standing = standings.of(passage, key);
  const goal = goalOf(tune);
  const newest = toldPasses(tune, sittings, passage, standings.dayStartsAtHour);
  const days = standings.historyOf(key);
  const { mine, next } = candidateOf(tune, standings, key);
  return {
    key,
    stands: standsSentence(tune, standing, goal),
    why: whySentences(tune, next),
    tempo: tempoSentences(tune, standings, standing, { goal, toward: mine?.towardTempo ?? null }),
    passes: passSentences(standing, newest, standings.today),
    moved: movedSentences(standing, days, standings),
    ...{ settled: standing.settled, goal, comfortable: standing.comfortable, newest, days },
  };
}

/** All of it as one list of sentences. */
export function explainedSentences({ stands, why, tempo, passes, moved }: Explanation): string[] {
  return [stands, ...why, ...tempo, ...passes, ...moved];
}

function goneExplanation(key: PassageKey, stands: string): Explanation {
  return {
    ...{ key, stands, why: [], tempo: [], passes: [], moved: [], settled: null },
    ...{ goal: 0, comfortable: 0, newest: [], days: [] },
  };
}

/** `next`: as a plan would take it up, if one would; `mine`: that, or as the learner's own choice. */
function candidateOf(
  tune: Tune,
  standings: Standings,
  key: PassageKey,
): { mine: Candidate | undefined; next: Candidate | undefined } {
  const state = tuneState(tune, standings, standings.now);
  if (!state) return { mine: undefined, next: undefined };
  const found = candidatesOf(state, standings.now);
  const [mine] = pinnedCandidates([key], [state], found);
  return { mine, next: found.find(({ link }) => link.key === key) };
}

function standsSentence(tune: Tune, { passage, settled }: Standing, goal: number): string {
  const name = passageName(tune, passage);
  return settled
    ? say.stands(name, tune.title, estimateWords(settled), tempoWord(goal))
    : say.notPlayed(name, tune.title, tempoWord(goal));
}

function estimateWords({ tempo, low, high }: SettledTempo) {
  return { tempo: tempoWord(tempo), low: tempoWord(low), high: tempoWord(high) };
}

function whySentences(tune: Tune, next: Candidate | undefined): string[] {
  if (tune.archived) return [say.putAway];
  if (!next) return [say.notCalledFor];
  return [next.reason(), sayReason.rules[next.reasonKind]];
}

function tempoSentences(
  tune: Tune,
  standings: Standings,
  { passage, settled, comfortable }: Standing,
  { goal, toward }: { goal: number; toward: number | null },
): string[] {
  const begin = tempoWord(comfortable);
  const climb = toward === null || toward <= comfortable ? [] : [say.climbs(tempoWord(toward))];
  if (!settled) return [say.beginsSlow(begin), guessSentence(tune, standings, passage), ...climb];
  const words = estimateWords(settled);
  const between = settled.high / settled.low > WIDE ? say.estimateWide(words) : say.estimateNarrow(words);
  return comfortable >= Math.floor(goal)
    ? [say.beginsAtGoal(begin), between]
    : [say.beginsComfortable(begin), between, ...climb];
}

function passSentences(standing: Standing, newest: readonly ToldPass[], today: number): string[] {
  const { passes, days, cleanOfLast20, ofLast, key } = standing;
  if (passes === 0) return [say.noPass];
  const told = byDay(newest)
    .slice(-DAYS_TOLD)
    .reverse()
    .map((one) => daySentence(one, today));
  return [say.passes(passes, days, cleanOfLast20, ofLast), ...longerSentence(newest, key), ...told];
}

/** `Tuesday: 4 of 6 clean at 72–80.` */
function daySentence({ day, passes }: ReturnType<typeof byDay>[number], today: number): string {
  const known = passes.filter(({ outcome }) => outcome !== 'somewhere');
  const clean = known.filter(({ outcome }) => outcome === 'clean').length;
  const vague = passes.length - known.length;
  const tempos = (known.length > 0 ? known : passes).map(({ tempo }) => Math.round(tempo));
  const [low, high] = [Math.min(...tempos), Math.max(...tempos)];
  const range = low === high ? String(low) : `${low}–${high}`;
  return say.day(saidDay(day, today), { clean, of: known.length, vague }, range);
}

/** `Of the newest 31, four came from playing the whole tune and seven from playing a part.` */
function longerSentence(newest: readonly ToldPass[], key: PassageKey): string[] {
  const from = [...longerPasses(newest, key)];
  return from.length > 0 ? [say.longer(newest.length, from)] : [];
}

function movedSentences(standing: Standing, days: readonly DayRecord[], standings: Standings): string[] {
  const { settled, lastPlayed, rust, isSettled } = standing;
  const [first, last] = [days[0], days.at(-1)];
  if (!settled || !first || !last || !lastPlayed) return [];
  const { today } = standings;
  const lines: string[] = [];
  if (days.length > 1) {
    const at = ({ tempo, day }: DayRecord) => ({ tempo: tempoWord(tempo), day: saidDay(day, today) });
    lines.push(say.stood(at(first), at(last), days.length));
  }
  if (Math.round(last.tempo) > Math.round(settled.tempo)) {
    lines.push(say.sunk(tempoWord(last.tempo), tempoWord(settled.tempo)));
  }
  const day = practiceDay(lastPlayed, standings.dayStartsAtHour);
  lines.push(say.lastPlayed[rust](saidDay(day, today)), isSettled ? say.isSettled : say.notSettled);
  return lines;
}
