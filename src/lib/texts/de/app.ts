import type { say } from '../app';

export const app: typeof say = {
  newerElsewhere:
    'Eine neuere Version von Phrasewright hat das Buch in einem anderen Tab geöffnet. Lade diese Seite neu, um hier weiterzumachen.',
  notOpened: (reason) => `Das Buch ließ sich nicht öffnen: ${reason}`,
  contentsUnchanged: 'Darin wurde nichts geändert.',
  stale: (reason) =>
    `Was du siehst, ist vielleicht nicht auf dem neuesten Stand: ${reason} Im Buch wurde nichts geändert.`,
  noPractice: 'Der Rechenteil der App ließ sich nicht starten',
  badPractice: 'Der Rechenteil der App hat etwas Unlesbares geschickt',
  practiceClosed: 'Der Rechenteil der App wurde geschlossen',

  noDemo: 'Die Beispielstücke sind noch nicht auf diesem Gerät. Öffne die App einmal mit Netz.',
  badDemo: (damage) => `Die Beispielstücke ließen sich nicht lesen: ${damage}`,

  saveRest: 'Was noch lesbar ist, als Datei speichern',
};
