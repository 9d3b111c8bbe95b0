import { plural } from '../figures';
import type { say } from '../sheet-page';

export const sheetPage: typeof say = {
  title: 'Übeblatt · Phrasewright',
  titleOf: (title) => `${title}, Übeblatt · Phrasewright`,
  backToTunes: '‹ Stücke',
  noTune: 'Dieses Stück gibt es in diesem Buch nicht.',
  withoutTempos: 'Die Tabulatur lässt sich trotzdem drucken, nur ohne die Tempi aus deinem Protokoll.',
  layer: 'Fassung',
  print: 'Drucken',
  paper: (pages) => `${pages === 1 ? 'eine Seite' : `${pages} Seiten`}, A4 oder US Letter`,
  whyPages: 'Auf einer Seite wären die Zahlen zu klein zum Lesen.',

  toLearn: (measures, figures) =>
    `${measures} ${plural(measures, { one: 'Takt', other: 'Takte' })}, ${figures} zu lernen`,
  inLayer: (layer) => ` in der Fassung „${layer}“`,
  sameMark: '. Gleiches Zeichen, gleicher Takt.',
  startAt: 'Anfangen mit',
  now: 'Jetzt',
  goal: 'Ziel',
  slowestLink: 'Langsamste Stelle',
  slowestLinkIs: (link) => `Langsamste Stelle: ${link}`,
  notPlayed: 'Noch nicht gespielt',
  pickup: (music) => `Auftakt, ${music}`,
  measure: (label, music) => `${label}, ${music}`,
  notes: 'Notizen',
};
