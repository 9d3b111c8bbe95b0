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
import { RULES } from './reasons';
import { goalOf } from './tune-map';
import { tuneState } from './tune-state';
import { byDay, longerPasses, toldPasses, type ToldPass } from './told-passes';
import { listed } from '../../texts/figures';
import { counted, numberWord } from '../../texts/number-words';
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
    ? 'The tune of this passage is not in the book.'
    : passageStretches(tune, passage).length === 0
      ? `${tune.title} has no such passage any more.`
      : null;
  if (!tune || gone !== null) return goneExplanation(key, gone ?? '');
  const standing = standings.of(passage, key);
  const goal = goalOf(tune);
  const newest = toldPasses(tune, sittings, passage, standings.dayStartsAtHour);
  const days = standings.historyOf(key);
  const { mine, next } = candidateOf(tune, standings, key);
  return {
    key,
    stands: standsSentence(`${passageName(tune, passage)} of ${tune.title}`, standing, goal),
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

function standsSentence(name: string, { settled }: Standing, goal: number): string {
  if (!settled) return `${name} has not been played yet; the goal is ${tempoWord(goal)}.`;
  const { tempo, low, high } = settled;
  return `${name} comes out clean 17 times in 20 at ${tempoWord(tempo)}, most likely between ${tempoWord(low)} and ${tempoWord(high)}; the goal is ${tempoWord(goal)}.`;
}

function whySentences(tune: Tune, next: Candidate | undefined): string[] {
  if (tune.archived) return ['The tune is put away, so no plan takes it up.'];
  if (!next) return ['Nothing in it calls for a drill now; you can always choose it.'];
  return [next.reason(), RULES[next.reasonKind]];
}

function tempoSentences(
  tune: Tune,
  standings: Standings,
  { passage, settled, comfortable }: Standing,
  { goal, toward }: { goal: number; toward: number | null },
): string[] {
  const begin = tempoWord(comfortable);
  const climb =
    toward === null || toward <= comfortable
      ? []
      : [`From there it climbs toward ${tempoWord(toward)}, a few beats at a time.`];
  if (!settled) {
    return [
      `A drill begins at ${begin}, slow enough that a clean pass is likely.`,
      guessSentence(tune, standings, passage),
      ...climb,
    ];
  }
  const { tempo, low, high } = settled;
  const why =
    comfortable >= Math.floor(goal)
      ? `A drill begins at the goal, ${begin}: more is not asked for.`
      : `A drill begins at ${begin}, where it should come out clean 19 times in 20.`;
  const span = `${tempoWord(low)} to ${tempoWord(high)}`;
  const between =
    high / low > WIDE
      ? `The estimate is still wide, ${span}, so the start lies well under ${tempoWord(tempo)}.`
      : `The estimate is narrow, ${span}, so the start lies near ${tempoWord(tempo)}.`;
  return comfortable >= Math.floor(goal) ? [why, between] : [why, between, ...climb];
}

function passSentences(standing: Standing, newest: readonly ToldPass[], today: number): string[] {
  const { passes, days, cleanOfLast20, ofLast, key } = standing;
  if (passes === 0) return ['No pass has been played yet.'];
  const all = `${counted(passes, 'pass', 'passes')} on ${counted(days, 'day')}: ${cleanOfLast20} of the newest ${ofLast} were clean.`;
  const told = byDay(newest)
    .slice(-DAYS_TOLD)
    .reverse()
    .map((one) => daySentence(one, today));
  return [capital(all), ...longerSentence(newest, key), ...told];
}

/** `Tuesday: 4 of 6 clean at 72–80.` */
function daySentence({ day, passes }: ReturnType<typeof byDay>[number], today: number): string {
  const known = passes.filter(({ outcome }) => outcome !== 'somewhere');
  const clean = known.filter(({ outcome }) => outcome === 'clean').length;
  const vague = passes.length - known.length;
  const tempos = (known.length > 0 ? known : passes).map(({ tempo }) => Math.round(tempo));
  const [low, high] = [Math.min(...tempos), Math.max(...tempos)];
  const range = low === high ? String(low) : `${low}–${high}`;
  const misses = `${counted(vague, 'miss', 'misses')} somewhere in something longer`;
  const said = capital(saidDay(day, today));
  if (known.length === 0) return `${said}: ${misses}, at ${range}.`;
  return `${said}: ${clean} of ${known.length} clean at ${range}${vague > 0 ? `, and ${misses}` : ''}.`;
}

const LONGER = {
  figure: 'a measure',
  seam: 'a join',
  phrase: 'a phrase',
  part: 'a part',
  tune: 'the whole tune',
};

/** `Of the newest 31, four came from playing the whole tune and seven from playing a part.` */
function longerSentence(newest: readonly ToldPass[], key: PassageKey): string[] {
  const from = [...longerPasses(newest, key)].map(
    ([kind, count], index) =>
      `${numberWord(count)} ${index === 0 ? 'came ' : ''}from playing ${LONGER[kind]}`,
  );
  return from.length > 0 ? [`Of the newest ${newest.length}, ${listed(from)}.`] : [];
}

function movedSentences(standing: Standing, days: readonly DayRecord[], standings: Standings): string[] {
  const { settled, lastPlayed, rust, isSettled } = standing;
  const [first, last] = [days[0], days.at(-1)];
  if (!settled || !first || !last || !lastPlayed) return [];
  const { today } = standings;
  const lines: string[] = [];
  if (days.length > 1) {
    lines.push(
      `It stood at ${tempoWord(first.tempo)} on the first day, ${saidDay(first.day, today)}, and at ${tempoWord(last.tempo)} on the newest of ${counted(days.length, 'day')}, ${saidDay(last.day, today)}.`,
    );
  }
  if (Math.round(last.tempo) > Math.round(settled.tempo)) {
    lines.push(
      `Since then it is expected to have sunk from ${tempoWord(last.tempo)} to ${tempoWord(settled.tempo)}.`,
    );
  }
  const day = practiceDay(lastPlayed, standings.dayStartsAtHour);
  const how = rust === 'fresh' ? 'still fresh' : rust;
  lines.push(`Last played ${saidDay(day, today)}: ${how}, by the memory model.`);
  const counts = isSettled ? 'It counts as settled' : 'It does not count as settled yet';
  lines.push(`${counts}: that takes two days and three quarters of the goal.`);
  return lines;
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
