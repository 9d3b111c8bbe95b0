import { inFigures, plural } from '../figures';
import type { say } from '../typed-tab';
import { numberWord } from './number-words';

export const typedTab: typeof say = {
  tooManyCharacters:
    'Dieser Text ist länger als eine Million Zeichen, mehr als jede Tabulatur. Nichts wurde gelesen.',
  tooManyLines: (most) =>
    `Dieser Text hat mehr als ${inFigures(most)} Zeilen, mehr als jede Tabulatur. Nichts wurde gelesen.`,
  noTab:
    'In diesem Text wurde keine Tabulatur gefunden: Gesucht werden fünf Linien aus Strichen und Bundzahlen.',

  partTooLong: (part, most) =>
    `Teil ${part} ist länger als ${inFigures(most)} Takte; was in ihm danach kommt, ist ausgelassen`,
  partAgain: (part, readAs) => `Teil ${part} steht hier noch einmal; dieser ist als Teil ${readAs} gelesen`,
  tooManyParts: (most) => `ein Stück hat höchstens ${most} Teile; dieser Takt ist ausgelassen`,
  otherForm: (form) => `die Form ${form} nennt nicht die Teile dieser Tabulatur`,
  tooLong: 'das ist länger als jedes Stück; was danach kommt, ist ausgelassen',

  unknownTuning: (written) => `„${written}“ ist keine Stimmung, die hier bekannt ist; wähle sie selbst`,
  unknownMeter: (written) => `„${written}“ ist keine Taktart, die hier bekannt ist; wähle sie selbst`,
  noCapo: (written) => `der Kapodaster lässt sich in „${written}“ nicht lesen`,
  noSpike: (written) => `der Spike lässt sich in „${written}“ nicht lesen`,
  noTempo: (written) => `das Tempo lässt sich in „${written}“ nicht lesen`,

  otherStrings: (seen) =>
    `fünf Saiten erwartet, ${seen === 1 ? 'eine' : numberWord(seen)} gesehen; dieses System ist ausgelassen`,
  noBarLine: (columns) => `kein Taktstrich auf ${columns} Spalten; ausgelassen`,
  pastTheLastBar: 'von hier an steht das hinter dem letzten Taktstrich; ausgelassen',
  otherBarLines: (here, usual) =>
    `${plural(here, { one: 'ein Takt', other: `${here} Takte` })} auf dieser Linie, ${usual} auf den anderen; geteilt, wo es die anderen sind`,
  otherWidth: (here, usual) =>
    `dieser Takt ist hier ${plural(here, { one: 'eine Spalte', other: `${here} Spalten` })} breit und auf anderen Linien ${usual}; sieh dir seinen Rhythmus an`,

  unknownMark: (mark) => `„${mark}“ ist kein Zeichen, das hier bekannt ist; ausgelassen`,
  noFretAfter: (technique) => `nach „${technique}“ steht hier keine Bundzahl; ausgelassen`,
  noFretAfterMark: (mark) => `nach „${mark}“ steht hier keine Bundzahl; ausgelassen`,
  pastTheNeck: (fret, last, frets) =>
    `${fret} liegt hinter dem letzten Bund, ${last}; als ${frets.join(' und ')} gelesen`,
  brushed: (fret) => `ein Brush behält nur den Bund seiner ersten Note; Bund ${fret} ist hier ausgelassen`,

  lettersNotBeats: 'diese Buchstaben gehen nicht in Schlägen auf; nach den Abständen gelesen',
  letterMissing: 'nicht über jeder Note steht ein Buchstabe; nach den Abständen gelesen',
  lettersSum: (beats) =>
    `diese Buchstaben ergeben ${plural(beats, { one: 'einen Schlag', other: `${inFigures(beats)} Schläge` })}; sieh dir diesen Takt an`,
  countAstray: 'diese Zählzeile passt nicht zu ihren Takten; nach den Abständen gelesen',
  tooClose: 'zu dicht an der Note davor, als dass klar wäre, wann sie klingt; ausgelassen',
  triplet: 'drei Noten, die gleichmäßig auf einem Schlag liegen, sind als Triole gelesen',
  noEndings:
    'diese Zahlen sind nicht als Wiederholungsklammern gelesen: Zwischen ihnen endet kein Wiederholungszeichen',
  endingsAlone: 'vor diesen Wiederholungsklammern steht nichts; nacheinander gelesen',

  melodyOnly:
    'Diese Melodie hat noch keine Tabulatur, die sich schreiben lässt. Schreib erst die Tabulatur, oder gib das Stück als ABC oder MusicXML weiter.',
  nothingToWrite: 'Noch kein Takt dieses Stücks hat eine Tabulatur. Schreib sie zuerst.',
};
