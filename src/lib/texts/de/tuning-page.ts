import type { say } from '../tuning-page';

export const tuningPage: typeof say = {
  title: 'Stimmen · Phrasewright',
  backToTunes: '‹ Stücke',
  noTune: 'Dieses Stück gibt es in diesem Buch nicht.',
  drill: 'Übung',
  today: 'Heute',
  back: 'Zurück',
  tuneUpTo: 'Stimmen auf',
  forTune: (title, called, capo) =>
    `${called === null ? '' : `${called}, `}${capo > 0 ? `Kapodaster im ${capo}. Bund, ` : ''}für ${title}`,
  unchanged: 'Stücke und Protokoll sind unverändert.',
  fromInHand: { before: 'Von', after: ' aus, der jetzigen Stimmung' },
  stringByString: 'Saite für Saite',
  notSaid:
    'Unter „Heute“ steht nicht, wie das Banjo gerade gestimmt ist; deshalb ist hier jede Saite genannt.',
  there: 'Die Stimmung sitzt schon. Prüf sie nach Gehör.',
  byEar: 'Nach Gehör',
  touch: 'Einmal tippen: Die Saite klingt. Noch einmal tippen: Sie verstummt.',
  touchWithCapo:
    'Mit aufgesetztem Kapodaster. Einmal tippen: Die Saite klingt. Noch einmal tippen: Sie verstummt.',
  goOn: 'Weiter',
  isInNow: (tuning) => `Das Banjo steht jetzt in ${tuning}`,
};
