import { describe, expect, it } from 'vitest';
import { pitchOf } from '$lib/core/notation/musicxml/read-note';
import { readMusicXml } from '$lib/core/notation/musicxml/read-musicxml';
import { xmlTree } from '$lib/core/notation/musicxml/xml-tree';

/**
 * W3C MusicXML 4.0, the worked example of tablature: guitar tuned E2 A2 D3 G3 B3 E4 on lines 1 (bottom) to 6; string 4,
 * fret 5 is G3, of duration 12 and written as a dotted half note.
 */
const OPEN = [
  ['E', 2],
  ['A', 2],
  ['D', 3],
  ['G', 3],
  ['B', 3],
  ['E', 4],
] as const;
const tunings = OPEN.map(
  ([step, octave], index) =>
    `<staff-tuning line="${index + 1}"><tuning-step>${step}</tuning-step><tuning-octave>${octave}</tuning-octave></staff-tuning>`,
);
const text = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>4</divisions><staff-details><staff-lines>6</staff-lines>${tunings.join('')}</staff-details></attributes>
<note><pitch><step>G</step><octave>3</octave></pitch><duration>12</duration><voice>1</voice><type>half</type><dot/>
<notations><technical><string>4</string><fret>5</fret></technical></notations></note></measure></part></score-partwise>`;

describe('the tablature example of the W3C', () => {
  it('sounds G3 for a dotted half, five semitones over the open fourth string from the top', () => {
    const [score] = readMusicXml(text).scores;
    expect(score!.voices[0]!.measures[0]!.notes).toEqual([{ onset: [0, 1], duration: [3, 4], pitch: 55 }]);
    const line = xmlTree(tunings[6 - 4]!).root!;
    expect(pitchOf(line, 'tuning-')! + 5).toBe(55);
  });

  it('is no tab for a banjo, and the reader says so', () => {
    const [score] = readMusicXml(text).scores;
    expect(score!.tuning).toBeNull();
    expect(score!.warnings.map(({ message }) => message).join()).toContain('not for five strings');
  });
});
