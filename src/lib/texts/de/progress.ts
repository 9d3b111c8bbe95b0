import { capital } from '../figures';
import type { say } from '../progress';
import { counted, numberWord } from './number-words';

const inTunes = (begun: number, tunes: number): string => {
  const all = counted(tunes, 'einem Stück', 'Stücken');
  if (begun === tunes) return all;
  return `${begun === 1 ? 'einem' : numberWord(begun)} von ${all}`;
};

export const progress: typeof say = {
  title: 'Fortschritt · Phrasewright',
  heading: 'Fortschritt',
  reading: 'Was du gespielt hast, wird gelesen.',
  empty: 'Was du spielst, zeigt sich hier: das Tempo nach Übetagen, auf das Ziel zu.',
  settledNow: 'gefestigtes Tempo jetzt',
  between: (low, high) => `wahrscheinlich zwischen ${low} und ${high}`,
  settled: 'Gefestigtes Tempo',
  notPlayed: (goal) =>
    `Von diesem Stück wurde noch nichts gespielt. Ein Übetag genügt, damit seine Linie beginnt; das Ziel ist ${goal}.`,
  toTune: 'Zum Stück',
  slowest: 'Die langsamsten Stellen',
  drillAt: '; zu üben bei',
  rusty: 'Am Einrosten',
  noneRusty: 'Kein Stück verblasst.',
  moreInTunes: (count) => `${count} weitere unter Stücke`,
  learned: 'Bisher gelernt',
  settledSoFar: (settled, measures, begun, tunes) => {
    const where = inTunes(begun, tunes);
    if (measures === 1) return `Der eine Takt ist gefestigt, in ${where}.`;
    const some = settled === 1 ? 'Einer' : capital(numberWord(settled));
    return `${some} von ${numberWord(measures)} Takten ${settled === 1 ? 'ist' : 'sind'} gefestigt, in ${where}.`;
  },
  atGoal: 'Am Ziel:',
  noneSettled:
    'Noch zu wenig: Ein Takt ist gefestigt, wenn er an zwei Übetagen hält, mit einer Nacht dazwischen.',
  report: 'Eine Seite für die Lehrkraft',
  tune: 'Stück',
  putAway: 'Weggelegt',
  asTable: 'Als Tabelle',
  tableOf: (of) => `: ${of}`,
};
