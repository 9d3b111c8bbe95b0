import type { Learner } from '../contract';
import type { PlayedTune, PolicyFactory, Practice, Stretch } from '../practice';
import { cutOf, measuresOf, pairsOf, wholeOf } from './by-ear';

/** Tempos that are tried, as shares of what the whole tune is ready for. */
const TEMPOS = [0.85, 0.95, 1.05, 1.15, 1.3];
/** Passes that a choice is judged by, and played for. */
const TURN_SEC = 60;
const BETWEEN_PASSES_SEC = 3;
const CHANGE_SEC = 15;

/**
 * Knows the hidden state: tries every stretch at several tempos on copies of the learner, and plays for a minute what
 * raised the tune's readiness most, the tune furthest from its goal first. Greedy: it does not look past that minute.
 */
export const oracle: PolicyFactory = () => ({
  sit(practice) {
    while (practice.minutesLeft > 0) {
      const tune = furthest(practice);
      const { stretch, tempo } = bestOf(practice, tune);
      const passes = passesIn(stretch, tempo);
      for (let pass = 0; pass < passes && practice.minutesLeft > 0; pass++) practice.play(stretch, tempo);
    }
  },
});

/** Of the tunes in the tuning in hand, while one of them lacks anything, else of all. */
function furthest(practice: Practice): PlayedTune {
  const lacking = (tune: PlayedTune) => practice.ready(tune) / tune.goal;
  const inHand = practice.tunes.filter(({ tuning }) => tuning === practice.tuningInHand);
  const open = inHand.filter((tune) => lacking(tune) < 1.03);
  const among = open.length > 0 ? open : practice.tunes;
  return among.reduce((least, tune) => (lacking(tune) < lacking(least) ? tune : least));
}

function bestOf(practice: Practice, tune: PlayedTune): { stretch: Stretch; tempo: number } {
  const now = practice.ready(tune);
  let best = { stretch: wholeOf(tune), tempo: now };
  let most = -Infinity;
  for (const stretch of stretchesOf(tune)) {
    for (const share of TEMPOS) {
      const tempo = Math.max(20, share * now);
      const learner = fork(practice.learner);
      const seconds = tryOut(learner, stretch, tempo, practice.now);
      const gain = (learner.ready(tune.id, practice.now + 1000 * seconds) - now) / (seconds + CHANGE_SEC);
      if (gain > most) [most, best] = [gain, { stretch, tempo }];
    }
  }
  return best;
}

function stretchesOf(tune: PlayedTune): Stretch[] {
  const half = tune.figures.length / 2;
  return [...measuresOf(tune), ...pairsOf(tune), ...cutOf(tune, 4), ...cutOf(tune, half), wholeOf(tune)];
}

function tryOut(learner: Learner, { tune, from, count }: Stretch, tempo: number, now: number): number {
  const each = passSec({ tune, from, count }, tempo);
  const passes = passesIn({ tune, from, count }, tempo);
  const figures = tune.figures.slice(from, from + count);
  for (let pass = 0; pass < passes; pass++) {
    const at = now + 1000 * pass * each;
    learner.play({ tuneId: tune.id, figures, tempo, at, fromMemory: true });
  }
  return passes * each;
}

function passesIn(stretch: Stretch, tempo: number): number {
  return Math.max(1, Math.round(TURN_SEC / passSec(stretch, tempo)));
}

function passSec({ tune, count }: Stretch, tempo: number): number {
  return (60 * count * tune.beats) / tempo + BETWEEN_PASSES_SEC;
}

function fork(learner: Learner): Learner {
  if (!learner.fork) throw new Error('The oracle needs a learner that can be forked');
  return learner.fork();
}
