import { inFigures } from './figures';
import { spoken } from './spoken';

/** What the readers of notation say of a file, and of the measures made of it. After a place a sentence begins small. */
export const say = spoken('reading', {
  at: (line: number, column: number, what: string) => `Line ${line}, column ${column}: ${what}.`,
  more: (count: number) => `${count} more places are not listed`,

  tooLarge: (megabytes: number) =>
    `This file is larger than ${megabytes} MB, more than any tunebook. It was not opened.`,
  emptyFile: 'This file is empty.',
  blank: 'There is nothing in this but blank space.',
  backup: 'This is a backup of a whole book. Open it in Settings, under "Your book".',
  webPage: 'This is a web page. Copy the notation out of it and paste that instead.',
  noNotation: 'No notation was found in this. ABC, MusicXML, MIDI and typed tab of five lines can be read.',
  nothing: 'Nothing that could be read was found in this.',
  noSuchTune: 'There is no such tune in this source.',
  noAbcTune: 'This looks like ABC, but no tune was found in it.',
  lastTune: (number: number) => `this is tune ${inFigures(number)}; what follows it is left out`,
  otherKinds: {
    picture:
      'This is a picture. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab.',
    recording:
      'This is a recording. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab.',
    pdf: 'This is a PDF. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab.',
    packed:
      'This is a packed archive of a kind that is not opened here: unpack it, and open the file inside.',
  },

  noMeasures: 'There are no measures in this tune.',
  partNotInOrder: (part: string) => `part ${part} is not in the order of parts; left out`,
  noMeter: (meter: string) => `no meter is given; read in ${meter}`,
  nearestMeter: (written: string, meter: string) =>
    `${written} is clicked as ${meter}, with measures of another length`,
  formTooLong: (times: number, most: number) =>
    `the parts are played ${times} times in all; the form ends after ${most}`,
  tooManyParts: (most: number) => `a tune has ${most} parts at most; what follows is left out`,
  partTooLong: (measures: number, parts: readonly string[]) =>
    `this part is longer than ${measures} measures; it is cut into the parts ${parts.join(', ')}`,
  notInHalfBeats: (meter: string, beats: number) =>
    `this measure does not come out in half beats of ${meter}; it is kept ${inFigures(beats)} beats long, with a rest at its end`,
  noBarLine: 'no bar line where the meter asks for one; the measure is cut there',
  pastTheEnd: 'a note sounds past the end; shortened',
  tooManyNotes: (most: number) => `this measure has more than ${most} notes; the rest is left out`,
  notAllFingered:
    'not every note of this measure says its string and fret; the measure is kept as melody without fingering',
  otherLeadIn: 'this lead-in differs from the one at the repeat, and is left out where the next part begins',
  shortByThePickup:
    'this measure is as much too short as the pickup is long; a rest fills it where the music goes on',
});
