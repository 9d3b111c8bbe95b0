import { inFigures, plural } from '../figures';
import type { say } from '../reading';

export const reading: typeof say = {
  at: (line, column, what) => `Zeile ${line}, Spalte ${column}: ${what}.`,
  more: (count) =>
    plural(count, {
      one: 'eine weitere Stelle ist nicht aufgeführt',
      other: `${inFigures(count)} weitere Stellen sind nicht aufgeführt`,
    }),

  tooLarge: (megabytes) =>
    `Diese Datei ist größer als ${inFigures(megabytes)} MB, mehr als jedes Notenbuch. Sie wurde nicht geöffnet.`,
  emptyFile: 'Diese Datei ist leer.',
  blank: 'Hier stehen nur Leerzeichen.',
  backup: 'Das ist die Sicherung eines ganzen Buchs. Öffne sie in den Einstellungen unter „Dein Buch“.',
  webPage: 'Das ist eine Webseite. Kopiere die Noten heraus und füge sie hier ein.',
  noNotation:
    'Hier wurden keine Noten gefunden. Gelesen werden ABC, MusicXML, MIDI und getippte Tabulatur mit fünf Linien.',
  nothing: 'Hier wurde nichts gefunden, was sich lesen lässt.',
  noSuchTune: 'Dieses Stück gibt es in dieser Quelle nicht.',
  noAbcTune: 'Das sieht nach ABC aus, aber es wurde kein Stück darin gefunden.',
  lastTune: (number) => `das ist Stück ${inFigures(number)}; was danach kommt, ist ausgelassen`,
  otherKinds: {
    picture:
      'Das ist ein Bild. Seine Noten lassen sich nicht lesen: Suche das Stück als ABC, MusicXML, MIDI oder getippte Tabulatur.',
    recording:
      'Das ist eine Aufnahme. Ihre Noten lassen sich nicht lesen: Suche das Stück als ABC, MusicXML, MIDI oder getippte Tabulatur.',
    pdf: 'Das ist ein PDF. Seine Noten lassen sich nicht lesen: Suche das Stück als ABC, MusicXML, MIDI oder getippte Tabulatur.',
    packed:
      'Das ist ein gepacktes Archiv, das hier nicht geöffnet wird: Entpacke es und öffne die Datei, die darin ist.',
  },

  noMeasures: 'Dieses Stück hat keine Takte.',
  partNotInOrder: (part) => `Teil ${part} kommt in der Reihenfolge der Teile nicht vor; ausgelassen`,
  noMeter: (meter) => `es ist keine Taktart angegeben; als ${meter} gelesen`,
  nearestMeter: (written, meter) => `zu ${written} klickt es wie zu ${meter}, mit Takten von anderer Länge`,
  formTooLong: (times, most) =>
    `die Teile werden insgesamt ${inFigures(times)}-mal gespielt; die Form endet nach ${most}`,
  tooManyParts: (most) => `ein Stück hat höchstens ${most} Teile; was danach kommt, ist ausgelassen`,
  partTooLong: (measures, parts) =>
    `dieser Teil ist länger als ${measures} Takte; er ist in die Teile ${parts.join(', ')} zerlegt`,
  notInHalfBeats: (meter, beats) =>
    `dieser Takt geht in halben Schlägen von ${meter} nicht auf; er wird ${plural(beats, {
      one: 'einen Schlag',
      other: `${inFigures(beats)} Schläge`,
    })} lang behalten, mit einer Pause am Ende`,
  noBarLine: 'kein Taktstrich, wo die Taktart einen verlangt; der Takt ist dort geteilt',
  pastTheEnd: 'eine Note klingt über das Ende hinaus; gekürzt',
  tooManyNotes: (most) => `dieser Takt hat mehr als ${inFigures(most)} Noten; der Rest ist ausgelassen`,
  notAllFingered:
    'nicht jede Note dieses Takts nennt Saite und Bund; der Takt wird als Melodie ohne Griffe behalten',
  otherLeadIn:
    'dieses Zuspiel ist anders als das an der Wiederholung und ist ausgelassen, wo der nächste Teil beginnt',
  shortByThePickup:
    'dieser Takt ist um so viel zu kurz, wie der Auftakt lang ist; wo die Musik weitergeht, füllt ihn eine Pause',
};
