import { inFigures } from './figures';
import { numberWord } from './number-words';
import { spoken } from './spoken';

/** What the reader of typed tab says (refusals as sentences, the rest behind a place), and why none can be written. */
export const say = spoken('typedTab', {
  tooManyCharacters: 'This text is longer than a million characters, more than any tab. Nothing was read.',
  tooManyLines: (most: number) =>
    `This text has more than ${inFigures(most)} lines, more than any tab. Nothing was read.`,
  noTab: 'No tab was found in this text: five lines of dashes and fret numbers are looked for.',

  partTooLong: (part: string, most: number) =>
    `part ${part} is longer than ${most} measures; what follows in it is left out`,
  partAgain: (part: string, readAs: string) =>
    `part ${part} stands here again; this one is read as part ${readAs}`,
  tooManyParts: (most: number) => `a tune has ${most} parts at most; this measure is left out`,
  otherForm: (form: string) => `the form ${form} does not name the parts of this tab`,
  tooLong: 'this is longer than any tune; what follows is left out',

  unknownTuning: (written: string) => `“${written}” is not a tuning known here; choose it by hand`,
  unknownMeter: (written: string) => `“${written}” is not a meter known here; choose it by hand`,
  noCapo: (written: string) => `the capo cannot be read in “${written}”`,
  noSpike: (written: string) => `the spike cannot be read in “${written}”`,
  noTempo: (written: string) => `the tempo cannot be read in “${written}”`,

  otherStrings: (seen: number) => `five strings expected, ${numberWord(seen)} seen; this system is left out`,
  noBarLine: (columns: number) => `no bar line for ${columns} columns; left out`,
  pastTheLastBar: 'from here on this stands beyond the last bar line; left out',
  otherBarLines: (here: number, usual: number) =>
    `${here} measures on this line, ${usual} on the others; cut where the others are`,
  otherWidth: (here: number, usual: number) =>
    `this measure is ${here} columns wide here and ${usual} on other lines; look at its rhythm`,

  unknownMark: (mark: string) => `“${mark}” is not a mark known here; left out`,
  noFretAfter: (technique: string) => `no fret number follows this ${technique}; left out`,
  noFretAfterMark: (mark: string) => `no fret number follows this “${mark}”; left out`,
  pastTheNeck: (fret: string, last: number, frets: readonly string[]) =>
    `${fret} is beyond the last fret, ${last}; read as ${frets.join(' and ')}`,
  brushed: (fret: number) => `a brush keeps the fret of its first note only; fret ${fret} here is left out`,

  lettersNotBeats: 'these letters do not add up to beats; read by spacing',
  letterMissing: 'not every note has a letter over it; read by spacing',
  lettersSum: (beats: number) => `these letters add up to ${inFigures(beats)} beats; look at this measure`,
  countAstray: 'this count does not stand with its measures; read by spacing',
  tooClose: 'too close to the note before it to tell when it sounds; left out',
  triplet: 'three notes spread evenly over a beat are read as a triplet',
  noEndings: 'these numbers are not read as endings: no repeat sign ends between them',
  endingsAlone: 'nothing stands before these endings; read one after the other',

  melodyOnly: 'This melody has no tab to write yet. Write its tab first, or share it as ABC or MusicXML.',
  nothingToWrite: 'No measure of this tune has tab yet. Write its tab first.',
});
