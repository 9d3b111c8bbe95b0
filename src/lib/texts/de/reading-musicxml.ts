import { inFigures } from '../figures';
import type { say } from '../reading-musicxml';

export const readingMusicxml: typeof say = {
  tooLong: 'die Datei ist länger als 20 Millionen Zeichen; nichts wurde gelesen',
  // why is told by the parser, in English only
  notWellFormed: () => 'das ist kein wohlgeformtes XML',
  ownEntities: 'die Datei bringt eigene Entitäten mit, was nicht sicher ist; nichts wurde gelesen',
  tooDeep: (most) => `Elemente sind mehr als ${most}-fach geschachtelt`,
  tooManyElements: 'die Datei hat mehr als eine Million Elemente',
  noScore: 'das ist keine Partitur in MusicXML: Gesucht wird score-partwise oder score-timewise',
  noNotes: 'keine Noten gefunden',
  tooManyMeasures: (most) => `mehr als ${inFigures(most)} Takte; was danach kommt, ist ausgelassen`,

  noSum: 'die Dauern dieses Takts lassen sich nicht zusammenzählen; ausgelassen',
  otherStrings: 'die Tabulatur ist nicht für fünf Saiten; sie ist als Melodie gelesen',
  divisions: 'diese Teilung der Viertelnote lässt sich nicht lesen',
  duration: (tag) => `die Dauer von ${tag} lässt sich hier nicht lesen`,
  graces: 'Vorschlagsnoten nehmen keine Zeit ein und sind ausgelassen',
  noteDuration: 'die Dauer dieser Note lässt sich nicht lesen; ausgelassen',
  noPitch: 'eine Note ohne Tonhöhe ist ausgelassen',
  unheard: 'eine Note, die niemand hören kann, ist ausgelassen',
  tooManyVoices: (most) => `mehr als ${most} Stimmen; der Rest ist ausgelassen`,
  tooManyNotes: 'mehr Noten, als ein Takt fassen kann; ausgelassen',
  voice: (voice, staff) => `Stimme ${voice}${staff === 1 ? '' : ` der Notenzeile ${staff}`}`,

  packed: (why) => `Diese .mxl-Datei lässt sich nicht lesen: ${why}.`,
  damaged: 'sie ist beschädigt oder keine Zip-Datei',
  encrypted: 'sie ist verschlüsselt',
  noScoreInside: 'keine Partitur ist darin',
  tooManyFiles: (most) => `sie enthält mehr als ${inFigures(most)} Dateien`,
  tooLarge: (megabytes) => `sie wäre entpackt größer als ${megabytes} MB`,
  tooPacked: (times) => `sie wäre entpackt mehr als ${times}-mal so groß, wie es keine Partitur ist`,
};
