import { inFigures } from '../figures';
import type { say } from '../reading-abc';

export const readingAbc: typeof say = {
  tooLong: 'dieser Text ist länger als jedes Notenbuch; nichts wurde gelesen',
  noTune: 'kein Stück gefunden: In ABC beginnt ein Stück mit X: und einer Nummer',
  strange: (sign) => `„${sign}“ lässt sich hier nicht als Musik lesen; ausgelassen`,
  strangeLine: 'der Rest dieser Zeile sieht nicht nach Musik aus; ausgelassen',
  noteLength: 'die Länge dieser Note lässt sich nicht behalten; ausgelassen',
  graces: (count) =>
    count === 1
      ? 'eine Gruppe von Vorschlagsnoten ist aus der Melodie weggelassen'
      : `${inFigures(count)} Gruppen von Vorschlagsnoten, von hier an, sind aus der Melodie weggelassen`,
  tuneTooLong: 'das ist länger als jedes Stück; was danach kommt, ist ausgelassen',
  unknownKey: 'diese Tonart ist nicht bekannt; die Noten sind ohne Tonart gelesen',
  noKey: 'die Musik beginnt ohne Tonart (K:); ohne Tonart gelesen',
  unknownMeter: 'diese Taktart ist nicht bekannt; es gilt die davor',
  unknownUnit: 'diese Notenlänge ist nicht bekannt; es gilt die davor',
};
