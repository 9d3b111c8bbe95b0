import type { say } from '../drill-end';
import { plural } from '../figures';

export const drillEnd: typeof say = {
  notSaved: (marks) =>
    `${marks} ${plural(marks, { one: 'Markierung ist', other: 'Markierungen sind' })} noch nicht gesichert.`,
  theyWait: 'Alles wartet hier. Schließ diese Seite nicht.',
  nothingCounted: 'Kein Durchgang wurde markiert, also zählt auch keiner.',
  of: 'von',
  cameOutClean: (fromMemory) => `sauber, ${fromMemory} auswendig.`,
  settledAt: 'Gefestigt bei etwa',
  likely: (low, high) => `, wohl zwischen ${low} und ${high}.`,
  firstGuess: 'Das ist eine erste Schätzung; ein weiterer Tag sagt mehr.',
  whereItWas: (tempo) => `Wie zuvor: etwa ${tempo}.`,
  before: (tempo) => `Zuvor waren es etwa ${tempo}.`,
  why: 'Warum dieses Tempo, und wie es sich bewegt hat',
  note: 'Eine Zeile Notizen',
  noteFor: 'zum Ende der Sitzung',
  stopIfItHurts:
    'Hör auf, wenn etwas schmerzt, kribbelt oder taub wird. Hält es an, lass es ärztlich abklären.',
  next: 'Weiter',
  from: (tempo) => `ab ${tempo}`,
  endSitting: 'Sitzung beenden',
};
