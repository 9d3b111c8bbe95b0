import type { say } from '../tune-passage';

export const tunePassage: typeof say = {
  passage: 'Gewählte Passage',
  notPlayed: 'Noch nicht gespielt',
  cleanAt: (tempo, isSlowest, rust) =>
    `Sauber bei ${tempo}${isSlowest ? ', langsamste Stelle' : ''}${rust === null ? '' : `, ${rust}`}`,
  why: 'Warum das und dieses Tempo',
  how: 'Wie es klingt',
  howDone: 'Fertig',
  passes: 'Durchgänge',
  passesOn: (passes, days) => `${passes} an ${days} ${days === 1 ? 'Tag' : 'Tagen'}`,
  cleanOfLast: (count) => `Sauber, letzte ${count}`,
  likely: 'Wahrscheinlich zwischen',
  likelyTempos: (low, high) => `${low} und ${high}`,
  memory: 'Gedächtnis',
  noMemory: 'noch nicht gespielt',
  hear: 'Anhören',
  stop: 'Stopp',
  upTo: 'Bis …',
  touchEnd: 'Ende antippen',
  drill: 'Üben',
  from: (tempo) => `ab ${tempo}`,
  drillAnyway: 'Noch nicht offen: trotzdem üben',
};
