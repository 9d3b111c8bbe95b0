import type { say } from '../retuning';
import { counted, ordinalWord } from './number-words';

const frets = (count: number): string => counted(count, 'einen Bund', 'Bünde');

/** `Stimme die zweite Saite um einen Bund höher: von B auf C`. */
function turned(string: number, change: number, from: string, to: string): string {
  const way = change < 0 ? 'tiefer' : 'höher';
  return `Stimme die ${ordinalWord(string)} Saite um ${frets(Math.abs(change))} ${way}: von ${from} auf ${to}`;
}

export const retuning: typeof say = {
  capoOff: 'Nimm den Kapodaster ab.',
  capo: (fret) => `Setz den Kapodaster an den ${ordinalWord(fret, 'n')} Bund.`,
  tune: (string, to) => `Stimme die ${ordinalWord(string)} Saite auf ${to}.`,
  turn: (string, change, from, to) => `${turned(string, change, from, to)}.`,
  spikeOff: 'Nimm die fünfte Saite von ihrem Spike.',
  turnOrSpike: (change, from, to) => `${turned(5, change, from, to)} (oder nimm ihren Spike).`,
  spike: (change, from, to) =>
    `Leg die fünfte Saite unter ihren Spike, um ${frets(change)} höher: von ${from} auf ${to}.`,
  caution: (string, above, usual) =>
    `Die ${ordinalWord(string)} Saite läge ${frets(above)} über ihrem üblichen ${usual} und könnte reißen: Dreh sie langsam, mit dem Gesicht von ihr weg, oder stimme tiefer und nimm den Kapodaster.`,
};
