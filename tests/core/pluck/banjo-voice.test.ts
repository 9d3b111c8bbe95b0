import { expect, it } from 'vitest';
import { BanjoVoice } from '$lib/core/pluck/banjo-voice';
import { referenceSegments } from '$lib/core/pluck/reference-tone';
import type { PluckCue } from '$lib/core/rhythm/pluck-cue';
import { checkSegment, type Segment } from '$lib/core/rhythm/segment';
import { LEAD_SEC, renderSegments, SoundRenderer } from '$lib/core/rhythm/sound-render';
import { referenceTones } from '$lib/core/tune/retune';
import { COMMON_TUNINGS, frequencyHz } from '$lib/core/tune/tuning';
import { cents, frequencyNear, peak, soundOf, stretch } from './sound-measures';

const RATE = 48_000;
const cue = (beat: number, string: PluckCue['string'] = 1, pitch = 62): PluckCue => ({
  at: [beat, 1],
  string,
  pitch,
});
const segment = (change: Partial<Segment>): Segment => ({
  ...{ id: 'pass', kind: 'pass', meter: '2/4', tempo: 97.3, measures: [2, 2], pattern: 'silent' },
  ...change,
});
const rendered = (segments: readonly Segment[], string: BanjoVoice | null = new BanjoVoice(RATE)) =>
  renderSegments(segments, new SoundRenderer(RATE, string), RATE);

it('sounds each cue at the sample that exact arithmetic gives, and adds to what is there', () => {
  const samples = rendered([segment({ plucks: [cue(1), cue(3, 4, 50)] })]);
  const at = [1, 3].map((beat) => Math.round((beat * 60 * RATE) / 97.3));
  expect(samples.findIndex((sample) => sample !== 0)).toBe(at[0]);
  const both = soundOf(
    [
      { atSec: at[0]! / RATE, string: 1, pitch: 62 },
      { atSec: at[1]! / RATE, string: 4, pitch: 50 },
    ],
    samples.length / RATE,
  );
  expect(peak(samples.map((sample, index) => sample - both[index]!))).toBeLessThan(1e-6);
  const click = rendered([segment({ pattern: 'beat' })]);
  const mixed = rendered([segment({ pattern: 'beat', plucks: [cue(1)] })]);
  expect(mixed.subarray(0, at[0])).toEqual(click.subarray(0, at[0]));
  expect(mixed[at[0]! + 2000]).not.toBe(click[at[0]! + 2000]);
});

it('falls silent with the timeline, and plays again', () => {
  const renderer = new SoundRenderer(RATE, new BanjoVoice(RATE));
  const block = (frame: number) => {
    const output = new Float32Array(128);
    renderer.render(output, frame);
    return peak(output);
  };
  renderer.take({ type: 'play', segments: [segment({ plucks: [cue(0)] })] });
  let frame = 0;
  let loudest = 0;
  for (; frame < LEAD_SEC * RATE + 4800; frame += 128) loudest = Math.max(loudest, block(frame));
  expect(loudest).toBeGreaterThan(0.2);
  renderer.take({ type: 'stop' });
  block(frame);
  block(frame + 128);
  for (frame += 256; frame < 30_000; frame += 128) expect(block(frame)).toBe(0);
  renderer.take({ type: 'play', segments: [segment({ plucks: [cue(0)] })] });
  loudest = 0;
  for (const end = frame + 7200; frame < end; frame += 128) loudest = Math.max(loudest, block(frame));
  expect(loudest).toBeGreaterThan(0.2);
});

it('gives the reference tone of each string, again and again, in tune', () => {
  const tuning = COMMON_TUNINGS[1]!.tuning;
  for (const tone of referenceTones({ tuning, capo: 2, spike: 2 })) {
    const [segments] = [referenceSegments(tone)];
    segments.forEach(checkSegment);
    const samples = rendered(
      segments.map((one) => ({ ...one, measures: [2, 2], plucks: one.plucks!.slice(0, 2) })),
    );
    for (const start of [0, 2]) {
      const hz = frequencyNear(stretch(samples, start + 0.05, start + 0.4), frequencyHz(tone.midi));
      expect(Math.abs(cents(hz, tone.hz))).toBeLessThan(0.2);
    }
  }
});
