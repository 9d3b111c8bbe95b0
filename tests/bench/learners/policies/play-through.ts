import type { PolicyFactory } from '../practice';
import { OwnTempos, wholeOf } from './by-ear';
import { OneTuneAtATime } from './repertoire';

/** The whole tune at one tempo, raised after a clean time through. */
export const playThrough: PolicyFactory = () => {
  const tempos = new OwnTempos();
  return new OneTuneAtATime((practice, tune, until) => {
    while (practice.minutesLeft > until) tempos.play(practice, wholeOf(tune));
  });
};
