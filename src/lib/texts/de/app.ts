import type { say } from '../app';
import { listed } from '../figures';

export const app: typeof say = {
  newerElsewhere:
    'Eine neuere Version von Phrasewright hat das Buch in einem anderen Tab geöffnet. Lade diese Seite neu, um hier weiterzumachen.',
  notOpened: (reason) => `Das Buch ließ sich nicht öffnen: ${reason}`,
  contentsUnchanged: 'Darin wurde nichts geändert.',
  stale: (reason) =>
    `Was du siehst, ist vielleicht nicht auf dem neuesten Stand: ${reason} Im Buch wurde nichts geändert.`,
  waiting: {
    mark: (count) => (count === 1 ? 'eine Markierung' : `${count} Markierungen`),
    setting: (count) => (count === 1 ? 'eine Einstellung' : `${count} Einstellungen`),
    draft: () => 'was du geschrieben hast',
    note: () => 'deine Notiz',
  },
  notSavedYet: (what, why) => `Noch nicht gespeichert: ${listed(what)}. ${why}`,
  theyWait: 'Es wird von selbst gespeichert, sobald das geht. Lass diese Seite offen.',

  noPractice: 'Der Rechenteil der App ließ sich nicht starten',
  badPractice: 'Der Rechenteil der App hat etwas Unlesbares geschickt',
  practiceClosed: 'Der Rechenteil der App wurde geschlossen',

  noDemo: 'Die Beispielstücke sind noch nicht auf diesem Gerät. Öffne die App einmal mit Netz.',
  badDemo: (damage) => `Die Beispielstücke ließen sich nicht lesen: ${damage}`,

  saveRest: 'Was noch lesbar ist, als Datei speichern',
};
