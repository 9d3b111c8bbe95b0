import { say } from '../../texts/measure-hints';
import { beatOf, type Meter } from '../rhythm/meter';
import { compare, ZERO } from '../rhythm/rational';
import { lastFret } from '../tune/neck';
import type { Strike } from '../tune/strike';
import type { Setup } from '../tune/tuning';
import type { MeasureWriting } from './measure-edit';

/** Frets that a left hand spans within a beat without moving (common practice: four fingers, a fret each, and one more). */
const STRETCH_FRETS = 5;

/** What a player would look at twice, in sentences; it never keeps a measure from being saved. */
export function measureHints(writing: MeasureWriting, meter: Meter, setup: Setup): string[] {
  const strikes = writing.strikes ?? [];
  return [
    ...strikes.flatMap((strike) => neckHint(strike, setup)),
    ...strikes.flatMap((strike) => slurHint(strike, strikes)),
    ...stretchHints(strikes, meter),
  ];
}

function neckHint({ string, fret }: Strike, setup: Setup): string[] {
  const last = lastFret(string, setup);
  if (fret <= last) return [];
  return [say.pastTheNeck(string, fret, last)];
}

function slurHint(strike: Strike, strikes: readonly Strike[]): string[] {
  const before = strikes.findLast(
    ({ string, onset }) => string === strike.string && compare(onset, strike.onset) < 0,
  );
  switch (strike.technique) {
    case 'hammer-on':
      if (before ? before.fret < strike.fret : strike.fret > 0) return [];
      return [say.hammerOn(strike.string, strike.fret)];
    case 'pull-off':
      if (!before || before.fret > strike.fret) return [];
      return [say.pullOff(strike.string, strike.fret)];
    case 'tie':
      if (before?.fret === strike.fret || compare(strike.onset, ZERO) === 0) return [];
      return [say.tie(strike.string)];
    default:
      return [];
  }
}

function stretchHints(strikes: readonly Strike[], meter: Meter): string[] {
  const beats = new Map<number, number[]>();
  for (const { onset, string, fret, technique } of strikes) {
    // the hand moves along with a slide
    if (fret === 0 || string === 5 || technique === 'slide') continue;
    const beat = beatOf(meter, onset);
    beats.set(beat, [...(beats.get(beat) ?? []), fret]);
  }
  return [...beats].flatMap(([beat, frets]) => {
    const [low, high] = [Math.min(...frets), Math.max(...frets)];
    return high - low > STRETCH_FRETS ? [say.stretch(beat + 1, low, high)] : [];
  });
}
