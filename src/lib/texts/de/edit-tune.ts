import type { say } from '../edit-tune';
import { plural } from '../figures';

export const editTune: typeof say = {
  page: (title) => `${title ?? 'Stück'} bearbeiten · Phrasewright`,
  back: '‹ Zurück',
  heading: 'Bearbeiten',
  noTune: 'Dieses Stück gibt es in diesem Buch nicht.',
  passesLeft: (count) =>
    `${plural(count, { one: '1 Durchgang wurde', other: `${count} Durchgänge wurden` })} auf Takten gespielt, die diese Änderung aus dem Stück nimmt.`,
  passesLeftSafe:
    'Was gespielt wurde, bleibt aufgezeichnet und in jeder Sicherung, zählt aber nicht, bis die Takte wieder da sind.',
  keepEdit: 'Änderung behalten',
  startOver: 'Von vorn beginnen',
  keep: 'Änderungen behalten',
  keepPasses: 'Durchgänge bleiben',
  keepPlaces: 'bei ihren Takten',
  notKept: (why) => `Die Änderungen wurden nicht gespeichert: ${why}`,
};
