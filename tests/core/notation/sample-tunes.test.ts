import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readDemoTune } from '../../../sample-data/read-demo-tune';
import { makeTune } from '../../../src/lib/core/tune/make-tune';
import { playedPlaces } from '../../../src/lib/core/tune/places';
import { pitchName, soundingPitch, tuningName } from '../../../src/lib/core/tune/tuning';

const TUNES = fileURLToPath(new URL('../../../sample-data/tunes/', import.meta.url));
const files = readdirSync(TUNES).sort();
const readSample = (file: string) => readDemoTune(readFileSync(TUNES + file, 'utf8'));

/** The notes of each key, spelled in sharps: major and the church modes (standard theory, from memory); "modal" in this music is dorian (common practice). */
const SCALES: Record<string, string> = {
  D: 'D E F# G A B C#',
  'A mixolydian': 'A B C# D E F# G',
  'G modal': 'G A A# C D E F',
  'A modal': 'A B C D E F# G',
};

function tuneOf(file: string) {
  let count = 0;
  return makeTune(readSample(file).draft, () => `id-${++count}`, { at: 0, offsetMin: 0 }, 'demo');
}

describe('sample tunes', () => {
  it('are six, in at least three tunings, half of them with tab', () => {
    const drafts = files.map((file) => readSample(file).draft);
    expect(drafts).toHaveLength(6);
    expect(new Set(drafts.map(({ tuning }) => tuningName(tuning))).size).toBeGreaterThanOrEqual(3);
    const withTab = drafts.filter(({ parts }) => parts[0]?.measures[0]?.strikes);
    expect(withTab.length).toBeGreaterThanOrEqual(3);
  });

  it.each(files)('%s reads without a warning and says where it comes from', (file) => {
    const { warnings, source } = readSample(file);
    expect(warnings).toEqual([]);
    expect(source).toMatch(/for this project/);
  });

  it.each(files)('%s stays in its scale', (file) => {
    const tune = tuneOf(file);
    const scale = SCALES[tune.key]?.split(' ');
    expect(scale).toHaveLength(7);
    const strikes = [...tune.figures, ...(tune.pickup ? [tune.pickup] : [])].flatMap((f) => f.strikes ?? []);
    const names = strikes.map(({ string, fret }) => pitchName(soundingPitch(tune, string, fret)));
    expect(names.filter((name) => !scale?.includes(name))).toEqual([]);
  });

  it.each(files)('%s shares measures and fills its form', (file) => {
    const tune = tuneOf(file);
    const measures = tune.parts.flatMap((part) => part.measures);
    expect(tune.figures.length).toBeLessThan(measures.length);
    expect(playedPlaces(tune, tune.layers[0]?.id ?? '')).toHaveLength(measures.length * 2);
  });

  it('has one crooked tune with a pickup', () => {
    const tune = tuneOf('crooked-hen-on-the-mill-stair.txt');
    expect(tune.pickup?.beats).toBe(0.5);
    expect(tune.parts.map((part) => part.measures.length)).toEqual([8, 9]);
    const eighth = tune.parts[1]?.measures[7];
    expect(tune.figures.find(({ id }) => id === eighth?.figureId)?.beats).toBe(3);
  });

  it('hears a capo tune as it sounds: Old Joe Clark begins on the fifth of A and ends on A', () => {
    const tune = tuneOf('old-joe-clark.txt');
    const sounding = playedPlaces(tune, tune.layers[0]?.id ?? '').map(({ figure }) => figure.strikes?.[0]);
    const pitches = sounding.map((strike) => strike && soundingPitch(tune, strike.string, strike.fret));
    // E4 and A3 (MIDI 64 and 57): the song's first note and its last measure's (common practice)
    expect([pitches[0], pitches.at(-1)]).toEqual([64, 57]);
  });

  it.each([
    ['Title: X\nMeter: 2/4\nForm: A\nMeasures: A 8', /Tuning: is missing|Title/],
    ['Title: X\nTuning: zzzzz\nMeter: 2/4\nForm: A\nMeasures: A 8', /common tuning such as gDGBD, saw zzzzz/],
    ['Title: X\nTuning: gDGBD\nMeter: 5/4\nForm: A\nMeasures: A 8', /Meter: must be one of .* saw 5\/4/],
    ['Title: X\nTuning: gDGBD\nMeter: 2/4\nForm: AB\nMeasures: A 8', /Form: AB does not name the parts/],
    ['Title: X\nTuning: gDGBD\nMeter: 2/4\nForm: A\nMeasures: A eight', /Measures: cannot read A eight/],
  ])('says which header line is at fault', (text, message) => {
    expect(() => readDemoTune(text)).toThrow(message);
  });
});
