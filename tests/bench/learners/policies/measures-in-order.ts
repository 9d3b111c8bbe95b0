import type { PlayedTune, PolicyFactory, Practice, Stretch } from '../practice';
import { measuresOf, wholeOf } from './by-ear';
import { OneTuneAtATime } from './repertoire';

const FASTER = 1.05;
const CLEAN_RUN = 3;
const PASSES_AT_MOST = 12;
const WHOLE_AT_MOST = 5;

/**
 * Every measure in order until it is clean three times in a row, then the whole tune; the next round is a little
 * faster once the whole came out clean.
 */
export const measuresInOrder: PolicyFactory = () => {
  const rounds = new Map<string, { tempo: number; next: number }>();
  return new OneTuneAtATime((practice, tune, until) => {
    const round = rounds.get(tune.id) ?? { tempo: tune.goal / 2, next: 0 };
    rounds.set(tune.id, round);
    const measures = measuresOf(tune);
    while (practice.minutesLeft > until) {
      const measure = measures[round.next];
      if (measure) {
        untilClean(practice, measure, round.tempo);
        round.next += 1;
        continue;
      }
      if (wholeComesOut(practice, tune, round.tempo)) {
        round.tempo = Math.min(1.05 * tune.goal, round.tempo * FASTER);
      }
      round.next = 0;
    }
  });
};

function untilClean(practice: Practice, measure: Stretch, tempo: number): void {
  let run = 0;
  for (let pass = 0; pass < PASSES_AT_MOST && run < CLEAN_RUN && practice.minutesLeft > 0; pass++) {
    run = practice.play(measure, tempo).outcome === 'clean' ? run + 1 : 0;
  }
}

function wholeComesOut(practice: Practice, tune: PlayedTune, tempo: number): boolean {
  for (let pass = 0; pass < WHOLE_AT_MOST && practice.minutesLeft > 0; pass++) {
    if (practice.play(wholeOf(tune), tempo).outcome === 'clean') return true;
  }
  return false;
}
