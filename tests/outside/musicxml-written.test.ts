// Sources: the content models of MusicXML 4.0 (see musicxml-models.ts), and `musicxml-io`, a reader that is none of ours. No
// package of the registries carries the published XSD, so the document is not run through it.
import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { exportMidi, parse, validate } from 'musicxml-io';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readDemoTune } from '../../sample-data/read-demo-tune';
import { writeMusicXml } from '../../src/lib/core/notation/musicxml/write-musicxml';
import { playOrder } from '../../src/lib/core/notation/play-order';
import type { Score } from '../../src/lib/core/notation/score';
import { scoreOfTune } from '../../src/lib/core/notation/score-of-tune';
import { add, toNumber, ZERO, type Rational } from '../../src/lib/core/rhythm/rational';
import { makeTune } from '../../src/lib/core/tune/make-tune';
import { writtenScore } from '../core/notation/musicxml/written-scores';
import { modelFaults } from './musicxml-models';

const TUNES = 'sample-data/tunes';
const demo = readdirSync(TUNES).map((file) => {
  let made = 0;
  const { draft } = readDemoTune(readFileSync(`${TUNES}/${file}`, 'utf8'));
  const tune = makeTune(draft, () => `id-${++made}`, { at: 0, offsetMin: 0 });
  return { file, score: scoreOfTune(tune, tune.layers[0]?.id ?? '') };
});

describe('what is written holds to the content models of MusicXML 4.0', () => {
  test.each(demo)('$file', ({ score }) => {
    expect(modelFaults(writeMusicXml(score))).toEqual([]);
  });

  test('any score', () => {
    fc.assert(
      fc.property(writtenScore, (score) => {
        expect(modelFaults(writeMusicXml(score))).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  // the checker itself
  test.each([
    ['<duration>1</duration>', '<duration>0</duration>', 'duration says "0"'],
    [/(<duration>\d+<\/duration>)(<voice>1<\/voice>)/, '$2$1', 'note holds'],
    ['direction="forward"', 'direction="on"', 'has direction="on"'],
    ['<score-part id="P1">', '<score-part id="P2">', 'are not those listed'],
    ['<divisions>', '<division>', 'no well-formed XML'],
    ['<voice>1</voice>', '<voice>1</voice><colour/>', 'colour is not in the table'],
  ])('%s as %s is found', (found, put, fault) => {
    const text = writeMusicXml(demo.find(({ file }) => file.includes('old-joe'))!.score);
    const damaged = text.replace(found, put);
    expect(damaged).not.toBe(text);
    expect(modelFaults(damaged).join('\n')).toContain(fault);
  });
});

type Sounded = [quarters: number, pitch: number];
const inOrder = (notes: Sounded[]) => notes.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);

function ours(score: Score): Sounded[] {
  const voice = score.voices[0]!;
  const notes: Sounded[] = [];
  let start: Rational = ZERO;
  for (const index of playOrder(voice, score.order)) {
    const measure = voice.measures[index]!;
    for (const { onset, pitch, tied } of measure.notes) {
      if (!tied) notes.push([4 * toNumber(add(start, onset)), pitch]);
    }
    start = add(start, measure.length);
  }
  return inOrder(notes);
}

function theirs(text: string): Sounded[] {
  const { header, tracks } = parseMidi(exportMidi(parse(text), { ticksPerQuarterNote: 10_080 }));
  const notes = tracks.flatMap((track) => {
    let tick = 0;
    return track.flatMap((event): Sounded[] => {
      tick += event.deltaTime;
      if (event.type !== 'noteOn' || event.velocity === 0) return [];
      return [[tick / header.ticksPerBeat!, event.noteNumber]];
    });
  });
  return inOrder(notes);
}

describe('musicxml-io reads what is written as it is meant', () => {
  test.each(demo)('$file', ({ score }) => {
    const text = writeMusicXml(score);
    const long = score.voices[0]!.measures.filter(
      ({ length, meter }) => meter && toNumber(length) > meter.count / meter.unit,
    );
    // the schema has no rule for it, and a crooked tune has measures that are longer than its meter
    expect(validate(parse(text)).errors.map(({ code }) => code)).toEqual(
      long.map(() => 'MEASURE_DURATION_OVERFLOW'),
    );
    expect(theirs(text)).toEqual(ours(score));
  });
});
