import { seededDraw } from '../../../../sample-data/made-up-learner';
import type { PlayedTune, PolicyFactory, Practice, Stretch } from '../practice';
import { cutOf, measuresOf, OwnTempos, pairsOf, wholeOf } from './by-ear';
import { OneTuneAtATime } from './repertoire';

const TURN_MIN = 3;
const PHRASE = 4;
/** The end of a sitting belongs to the whole tune. */
const THROUGH_SHARE = 0.2;

/** Turns of three minutes, each on a stretch that is chosen anew, at the stretch's own tempo. */
function inTurns(
  next: (practice: Practice, tune: PlayedTune, tempos: OwnTempos) => Stretch,
): ReturnType<PolicyFactory> {
  const tempos = new OwnTempos();
  return new OneTuneAtATime((practice, tune, until) => {
    while (practice.minutesLeft > until) {
      const stretch = next(practice, tune, tempos);
      const turnEnds = practice.minutesLeft - TURN_MIN;
      do tempos.play(practice, stretch);
      while (practice.minutesLeft > Math.max(until, turnEnds));
    }
  });
}

function stretchesOf(tune: PlayedTune): Stretch[] {
  const parts = cutOf(tune, tune.figures.length / 2);
  return [...measuresOf(tune), ...pairsOf(tune), ...cutOf(tune, PHRASE), ...parts, wholeOf(tune)];
}

export const randomPassage: PolicyFactory = (_, seed) => {
  const random = seededDraw(seed + 4242);
  return inTurns((_practice, tune) => {
    const all = stretchesOf(tune);
    return all[Math.floor(random() * all.length)]!;
  });
};

/** Measures, phrases, parts, the whole, and from the top. */
export const fixedRotation: PolicyFactory = () => {
  const turns = new Map<string, number>();
  return inTurns((_practice, tune) => {
    const parts = cutOf(tune, tune.figures.length / 2);
    const round = [...measuresOf(tune), ...cutOf(tune, PHRASE), ...parts, wholeOf(tune)];
    const turn = turns.get(tune.id) ?? 0;
    turns.set(tune.id, turn + 1);
    return round[turn % round.length]!;
  });
};

/** The measure or join with the slowest tempo of its own; the whole tune at the end of the sitting. */
export const alwaysSlowest: PolicyFactory = (practice) => {
  const through = practice.minutesLeft * THROUGH_SHARE;
  return inTurns((now, tune, tempos) => {
    if (now.minutesLeft <= through) return wholeOf(tune);
    return [...measuresOf(tune), ...pairsOf(tune)].reduce((slowest, stretch) =>
      tempos.of(stretch) < tempos.of(slowest) ? stretch : slowest,
    );
  });
};
