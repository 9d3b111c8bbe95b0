import { describe, expect, it } from 'vitest';
import { heardAtMs, heardFrame, type OutputClock } from '$lib/audio/output-clock';
import { SegmentTrack } from '$lib/audio/segment-track';
import { segmentTempo, type Segment } from '$lib/core/rhythm/segment';

const stamped: OutputClock = {
  sampleRate: 48_000,
  currentTime: 10,
  outputLatency: 0.5,
  getOutputTimestamp: () => ({ contextTime: 9.9, performanceTime: 5000 }),
};

describe('the moment at which a frame is heard', () => {
  it('follows the output timestamp', () => {
    expect(heardAtMs(stamped, 48_000 * 10, 5004)).toBeCloseTo(5100, 9);
    expect(heardFrame(stamped, 5100)).toBeCloseTo(48_000 * 10, 6);
  });

  it('falls back on the reported latency where the timestamp is empty or missing', () => {
    const empty = { ...stamped, getOutputTimestamp: () => ({ contextTime: 0, performanceTime: 0 }) };
    const missing: OutputClock = { sampleRate: 48_000, currentTime: 10, baseLatency: 0.02 };
    expect(heardAtMs(empty, 48_000 * 10, 5000)).toBeCloseTo(5500, 9);
    expect(heardAtMs(missing, 48_000 * 10, 5000)).toBeCloseTo(5020, 9);
    expect(heardFrame(missing, 5000)).toBeCloseTo(48_000 * 9.98, 6);
  });

  it('does not believe a timestamp of another clock', () => {
    const other = { ...stamped, getOutputTimestamp: () => ({ contextTime: 9.9, performanceTime: 15_568 }) };
    expect(heardAtMs(other, 48_000 * 10, 8988)).toBeCloseTo(9488, 9);
    expect(heardFrame(other, 8988)).toBeCloseTo(48_000 * 9.5, 6);
  });
});

describe('the position in the segments', () => {
  const segment = (id: string, change: Partial<Segment> = {}): Segment => ({
    id,
    kind: 'pass',
    meter: '2/4',
    tempo: 60,
    measures: [2],
    pattern: 'beat',
    ...change,
  });

  const started = (begun: Segment, frame: number) =>
    ({ type: 'segment-start', segment: begun, tempo: segmentTempo(begun), frame }) as const;

  it('is nothing before the start and after the end, and the heard one of two in between', () => {
    const track = new SegmentTrack(1000);
    track.follow(started(segment('1'), 500));
    expect(track.at(499)).toBeNull();
    expect(track.at(1000)).toEqual({ segment: segment('1'), beats: 0.5 });
    track.follow({ type: 'segment-end', segmentId: '1', frame: 2500 });
    track.follow(started(segment('2'), 2500));
    expect(track.at(2000)).toEqual({ segment: segment('1'), beats: 1.5 });
    expect(track.at(3000)).toEqual({ segment: segment('2'), beats: 0.5 });
    expect(track.at(9000)?.beats).toBe(2);
    track.follow({ type: 'segment-end', segmentId: '2', frame: 4500 });
    expect(track.at(4500)).toBeNull();
    track.clear();
    expect(track.at(3000)).toBeNull();
  });

  it('stands still in a pause, and never goes back when it ends', () => {
    const track = new SegmentTrack(1000);
    track.follow(started(segment('1'), 0));
    track.follow({ type: 'paused', frame: 700 });
    expect(track.at(5000)?.beats).toBe(0.7);
    track.follow({ type: 'resumed', frame: 5700, shift: 5000 });
    expect(track.at(5650)?.beats).toBe(0.7);
    expect(track.at(6000)?.beats).toBe(1);
  });

  it('counts on through a wait', () => {
    const track = new SegmentTrack(1000);
    track.follow(started(segment('w', { waits: true, measures: [] }), 0));
    expect(track.at(90_000)?.beats).toBe(90);
  });
});
