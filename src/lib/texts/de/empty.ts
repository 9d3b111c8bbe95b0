import type { say } from '../empty';

export const empty: typeof say = {
  noTunes: 'Noch keine Stücke.',
  firstTune: 'Ein Stück für den Anfang',
  enough: 'Titel, Stimmung, Form und Takte genügen für den Anfang.',
  whatFollows:
    'Gleich danach spielst du den ersten Takt und sagst mit einem Tippen, wie es ging. Daraus wird dein erster Plan.',
  add: 'Stück hinzufügen',
  demo: 'Mit den Beispielstücken ausprobieren',
  readingDemo: 'Beispielstücke werden gelesen',
  demoHolds:
    'Sechs Stücke und zehn Wochen Üben einer erfundenen Person. Eine Berührung in den Einstellungen nimmt sie wieder heraus.',
};
