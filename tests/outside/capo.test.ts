// Sources: what a capo makes of a tuning is common practice (SCIENCE.md, check 15; frequencies.test.ts has it string by string); the
// spellings go through the reference library `@tonaljs/note`; the string numbers are those of MusicXML 4.0.
import * as Note from '@tonaljs/note';
import { parseMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { writeMidi } from '../../src/lib/core/notation/midi/write-midi';
import { readMusicXml } from '../../src/lib/core/notation/musicxml/read-musicxml';
import { writeMusicXml } from '../../src/lib/core/notation/musicxml/write-musicxml';
import { scoreOfTune } from '../../src/lib/core/notation/score-of-tune';
import { readTypedTab } from '../../src/lib/core/notation/typed-tab';
import { makeTune } from '../../src/lib/core/tune/make-tune';
import { COMMON_TUNINGS, type StringNumber, type Tuning } from '../../src/lib/core/tune/tuning';

/** Open strings from the fifth to the first; capo on the second fret, the short string raised by two of its own. */
const RAISED = [
  { name: 'gDGBD', sounds: ['A4', 'E3', 'A3', 'C#4', 'E4'] },
  { name: 'gDGCD', sounds: ['A4', 'E3', 'A3', 'D4', 'E4'] },
  { name: 'gCGCD', sounds: ['A4', 'D3', 'A3', 'D4', 'E4'] },
];
const STRINGS: readonly StringNumber[] = [5, 4, 3, 2, 1];
const openOf = (name: string): Tuning => COMMON_TUNINGS.find((one) => one.name === name)!.tuning;

describe('files of a tune under a capo', () => {
  test.each(RAISED)(
    'a tune in $name sounds raised in MIDI and MusicXML, on the same strings',
    ({ name, sounds }) => {
      const text = ['d|--------0|', 'x|------0--|', 'x|----0----|', 'x|--0------|', 'g|0--------|'].join(
        '\n',
      );
      const { parts, form } = readTypedTab(text, { meter: '2/4' });
      let made = 0;
      const tune = makeTune(
        {
          ...{
            title: 'Open strings',
            tuning: openOf(name),
            capo: 2,
            spike: 2,
            key: '',
            meter: '2/4' as const,
          },
          ...{ goalTempo: 100, form, parts: [...parts], pickup: null },
        },
        () => `id-${++made}`,
        { at: 0, offsetMin: 0 },
      );
      const score = scoreOfTune(tune, tune.layers[0]!.id);
      const wanted = sounds.map((note) => Note.midi(note));
      const { tracks } = parseMidi(writeMidi(score));
      const heard = tracks.flat().flatMap((event) => (event.type === 'noteOn' ? [event.noteNumber] : []));
      expect(heard.slice(0, 5)).toEqual(wanted);
      const [read] = readMusicXml(writeMusicXml(score)).scores;
      const notes = read!.voices[0]!.measures[0]!.notes;
      expect(notes.map(({ pitch, fingering }) => [fingering?.string, pitch])).toEqual(
        STRINGS.map((string, index) => [string, wanted[index]]),
      );
    },
  );
});
