import { numberWord, ordinalWord } from './number-words';
import { spoken } from './spoken';

function frets(count: number): string {
  return `${numberWord(count)} ${count === 1 ? "fret's" : "frets'"} worth`;
}

/** `Raise the second string one fret's worth: B to C`. */
function turned(string: number, change: number, from: string, to: string): string {
  const verb = change < 0 ? 'Lower' : 'Raise';
  return `${verb} the ${ordinalWord(string)} string ${frets(Math.abs(change))}: ${from} to ${to}`;
}

/** How to get from one tuning to another. A `change` is in frets' worth, below 0 for lower. */
export const say = spoken('retuning', {
  capoOff: 'Take the capo off.',
  capo: (fret: number) => `Put the capo at the ${ordinalWord(fret)} fret.`,
  tune: (string: number, to: string) => `Tune the ${ordinalWord(string)} string to ${to}.`,
  turn: (string: number, change: number, from: string, to: string) => `${turned(string, change, from, to)}.`,
  spikeOff: 'Take the fifth string off its spike.',
  turnOrSpike: (change: number, from: string, to: string) =>
    `${turned(5, change, from, to)} (or use its spike).`,
  spike: (change: number, from: string, to: string) =>
    `Put the fifth string under its spike, ${frets(change)} up: ${from} to ${to}.`,
  caution: (string: number, above: number, usual: string) =>
    `The ${ordinalWord(string)} string would lie ${frets(above)} above its usual ${usual} and may break: turn it slowly, with your face away from it, or tune lower and use the capo.`,
});
