import type { say } from '../climb';
import { numberWord } from './number-words';

const clean = (run: number): string => (run === 1 ? 'sauber' : `${numberWord(run)} sauber`);

export const climb: typeof say = {
  notMarked: (tempo) => `nicht markiert: bleib bei ${tempo}`,
  byHand: (tempo) => `dein Tempo: ${tempo}`,
  cleanSoFar: (run, needed, tempo) =>
    `${run === 1 ? 'einer' : numberWord(run)} von ${numberWord(needed)} sauber: bleib bei ${tempo}`,
  cleanAtTop: (run, tempo) => `${clean(run)}: bleib bei ${tempo}, schneller wird diese Übung nicht`,
  cleanUp: (run, percent) => `${clean(run)}: ${percent} % schneller`,
  cleanToFast: (tempo) => `sauber: jetzt ${tempo}`,
  cleanBack: (tempo, then) => `sauber: zurück auf ${tempo}, dann ${then}`,
  missesBack: (tempo) => `zwei Fehlversuche: zurück auf ${tempo}`,
  missAtSlowest: (tempo) => `ein Fehlversuch: bleib bei ${tempo}, langsamer geht es nicht`,
  missDown: (percent) => `ein Fehlversuch: ${percent} % langsamer`,
  missBeforeFast: (tempo) => `ein Fehlversuch: ${tempo} vor dem schnellen Tempo`,
  missBack: (tempo, then) => `ein Fehlversuch: zurück auf ${tempo}, dann ${then}`,

  handsTired: (misses, newest) =>
    `${misses} Fehlversuche in den letzten ${newest} Durchgängen: Die Hände sind wohl müde. Lass es für heute gut sein.`,
  timeUp: 'Die Zeit für diese Übung ist um.',
  sureOfIt: (tempo) => `Sauber bei etwa ${tempo}, und das sicher: genug für heute.`,
};
