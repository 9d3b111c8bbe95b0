import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMusicXml } from '$lib/core/notation/musicxml/read-musicxml';
import { writeMusicXml } from '$lib/core/notation/musicxml/write-musicxml';
import type { Score, ScoreMeasure } from '$lib/core/notation/score';
import { rational, ZERO } from '$lib/core/rhythm/rational';
import { writtenScore } from './written-scores';

const METER = { count: 2, unit: 4 };

const bare = (read: Score): Score => ({
  ...read,
  voices: read.voices.map(({ name, measures }) => ({
    name,
    measures: measures.map((one) => ({ ...one, line: 1, column: 1 })),
  })),
});

describe('writing MusicXML', () => {
  it('reads back the same', () => {
    fc.assert(
      fc.property(writtenScore, (written) => {
        fc.pre(written.voices[0]!.measures.some(({ notes }) => notes.length > 0));
        const [read] = readMusicXml(writeMusicXml(written)).scores;
        expect(bare(read!)).toEqual(written);
      }),
      { numRuns: 300 },
    );
  });

  it('is read without a crash after any damage', () => {
    const damage = fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(40), fc.string());
    fc.assert(
      fc.property(writtenScore, damage, (written, [where, length, junk]) => {
        const text = writeMusicXml(written);
        const at = Math.floor(where * text.length);
        const read = readMusicXml(text.slice(0, at) + junk + text.slice(at + length));
        const said = read.warnings.length + read.scores.length;
        expect(said).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });

  it('ties the values of a length that no single one can write, and names a tuplet', () => {
    const note = { onset: ZERO, duration: rational(5, 16), pitch: 67 };
    const triplet = { onset: rational(5, 16), duration: rational(1, 12), pitch: 67 };
    const one: ScoreMeasure = {
      ...{ line: 1, column: 1, meter: METER, length: rational(1, 2), notes: [note, triplet], labels: [] },
      ...{ opensRepeat: false, timesPlayed: 0, ending: null, endsSection: true, part: null },
    };
    const text = writeMusicXml({
      ...{ number: null, title: null, key: null, meter: METER, tempo: null, tuning: null, capo: null },
      ...{ order: null, warnings: [], voices: [{ name: 'x', measures: [one] }] },
    });
    expect(text).toMatch(/<type>quarter<\/type><notations><tied type="start"\/>.*<type>16th<\/type>/);
    expect(text).toContain('<actual-notes>3</actual-notes><normal-notes>2</normal-notes>');
  });
});
