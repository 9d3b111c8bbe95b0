import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEAD_SEC, renderSegments, SoundRenderer, type SoundEvent } from '$lib/core/rhythm/sound-render';
import { FADE_SEC } from '$lib/core/rhythm/voice';
import { clickSamples, runBeats } from '$lib/core/rhythm/click-times';
import { METERS } from '$lib/core/rhythm/meter';
import { PATTERNS } from '$lib/core/rhythm/patterns';
import { toNumber } from '$lib/core/rhythm/rational';
import type { Segment } from '$lib/core/rhythm/segment';
import { steadyTempo } from '$lib/core/rhythm/tempo-map';

const RATE = 48_000;
const QUANTUM = 128;
const LEAD = LEAD_SEC * RATE;

function segment(id: string, change: Partial<Segment> = {}): Segment {
  return { id, kind: 'pass', meter: '2/4', tempo: 120, measures: [2], pattern: 'beat', ...change };
}
const renderClick = (segments: readonly Segment[], rate: number) =>
  renderSegments(segments, new SoundRenderer(rate), rate);
const waiting = (id: string) => segment(id, { kind: 'breath', pattern: 'silent', measures: [], waits: true });

/** Renders in quanta as a worklet does, and keeps all that comes out. */
class Player {
  readonly renderer = new SoundRenderer(RATE);
  readonly events: SoundEvent[] = [];
  readonly blocks: Float32Array[] = [];
  frame = 0;

  run(untilFrame: number): this {
    while (this.frame < untilFrame) {
      const block = new Float32Array(QUANTUM);
      this.events.push(...this.renderer.render(block, this.frame));
      this.blocks.push(block);
      this.frame += QUANTUM;
    }
    return this;
  }

  get samples(): Float32Array {
    const all = new Float32Array(this.blocks.length * QUANTUM);
    this.blocks.forEach((block, index) => {
      all.set(block, index * QUANTUM);
    });
    return all;
  }

  clicks(): number[] {
    return this.events.filter((event) => event.type === 'click').map(({ frame }) => frame);
  }

  starts(): [string, number][] {
    return this.events.flatMap((event) =>
      event.type === 'segment-start' ? [[event.segment.id, event.frame]] : [],
    );
  }
}

/** Where clicks begin: the first sample that is not 0 after at least 2 ms of silence. */
function onsets(samples: Float32Array): number[] {
  const found: number[] = [];
  let silent = Infinity;
  samples.forEach((sample, index) => {
    if (sample !== 0 && silent > RATE * 0.002) found.push(index);
    silent = sample === 0 ? silent + 1 : 0;
  });
  return found;
}

/** Where the clicks of segments that follow each other belong, in frames and thousandths of one, summed apart from the timeline. */
function expectedClicks(segments: readonly Segment[], from: number): number[] {
  const clicks: number[] = [];
  let start = 0;
  for (const each of segments) {
    const perBeat = (60 * RATE) / each.tempo;
    for (const { sample } of clickSamples(each, steadyTempo(each.tempo), RATE * 1000)) {
      clicks.push(from + start + sample / 1000);
    }
    start += toNumber(runBeats(each)) * perBeat;
  }
  return clicks;
}

/** Each frame is the nearest one to where its click belongs: half a frame, and the thousandths of `expectedClicks`. */
function expectNear(actual: readonly number[], expected: readonly number[]): void {
  expect(actual).toHaveLength(expected.length);
  actual.forEach((frame, index) => {
    expect(Math.abs(frame - expected[index]!)).toBeLessThanOrEqual(0.502);
  });
}

const anySegment = fc.record({
  meter: fc.constantFrom(...METERS),
  pattern: fc.constantFrom(...PATTERNS),
  tempo: fc.integer({ min: 600, max: 3000 }).map((tenths) => tenths / 10),
  measures: fc.array(
    fc.integer({ min: 1, max: 6 }).map((halves) => halves / 2),
    { minLength: 1, maxLength: 3 },
  ),
});

describe('the rendered click', () => {
  it('has a stroke at the very sample that the arithmetic gives, and silence between', () => {
    const segments = [
      segment('count', { kind: 'count-in' }),
      segment('pass', { pattern: 'down-stroke', tempo: 97.3, measures: [2, 3, 1.5] }),
    ];
    const player = new Player();
    player.renderer.take({ type: 'play', segments });
    player.run(RATE * 6);
    expectNear(player.clicks(), expectedClicks(segments, LEAD));
    expect(onsets(player.samples)).toEqual(player.clicks());
  });

  it('is the same rendered ahead as a whole', () => {
    const segments = [segment('a', { tempo: 133.7 }), segment('b', { pattern: 'eighths', tempo: 88.8 })];
    const player = new Player();
    player.renderer.take({ type: 'play', segments });
    player.run(RATE * 4);
    const whole = renderClick(segments, RATE);
    expect(player.samples.subarray(LEAD, LEAD + whole.length)).toEqual(whole);
  });

  it('tells starts, ends and the end of all, back to back', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('a'), segment('b', { pattern: 'silent' })] });
    player.run(RATE * 3);
    expect(player.events.filter(({ type }) => type !== 'click')).toEqual([
      { type: 'reset', frame: 0 },
      { type: 'segment-start', segment: segment('a'), tempo: steadyTempo(120), frame: LEAD },
      { type: 'segment-end', segmentId: 'a', frame: LEAD + RATE },
      {
        type: 'segment-start',
        segment: segment('b', { pattern: 'silent' }),
        tempo: steadyTempo(120),
        frame: LEAD + RATE,
      },
      { type: 'segment-end', segmentId: 'b', frame: LEAD + 2 * RATE },
      { type: 'finished', frame: LEAD + 2 * RATE },
    ]);
  });

  it('does not drift over 1,000 segments whose length is no whole number of samples', () => {
    const segments = Array.from({ length: 1000 }, (_, index) =>
      segment(`${index}`, { tempo: 299.9, measures: [0.5], meter: '2/2' }),
    );
    const player = new Player();
    player.renderer.take({ type: 'play', segments });
    player.run(RATE * 102);
    const clicks = player.clicks();
    expect(clicks).toHaveLength(1000);
    clicks.forEach((frame, k) => {
      expect(frame).toBe(LEAD + Math.round((k * 300 * RATE) / 2999));
    });
  });

  it('does not drift through a climb of 300 different tempos', () => {
    const segments = Array.from({ length: 300 }, (_, index) =>
      segment(`${index}`, { tempo: 200 + index / 10, measures: [1] }),
    );
    const player = new Player();
    player.renderer.take({ type: 'play', segments });
    player.run(RATE * 90);
    expectNear(player.clicks(), expectedClicks(segments, LEAD));
  });

  it('refuses to render a wait', () => {
    expect(() => renderClick([waiting('w')], RATE)).toThrow('has no length');
  });
});

describe('replacing what follows', () => {
  it('never doubles or drops a click, whenever the message comes before the end of the named segment', () => {
    fc.assert(
      fc.property(
        fc.array(anySegment, { minLength: 1, maxLength: 3 }),
        fc.array(anySegment, { minLength: 1, maxLength: 3 }),
        fc.array(anySegment, { minLength: 1, maxLength: 3 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (kept, tentative, replacing, moment) => {
          const name = (list: typeof kept, prefix: string) =>
            list.map((each, index) => segment(`${prefix}${index}`, each));
          const [first, old, fresh] = [name(kept, 'k'), name(tentative, 't'), name(replacing, 'r')];
          const player = new Player();
          player.renderer.take({ type: 'play', segments: [...first, ...old] });
          const ends = first.reduce(
            (sum, each) => sum + (toNumber(runBeats(each)) * 60) / each.tempo,
            LEAD_SEC,
          );
          // the message must be there at the start of the quantum in which the named segment ends
          player.run(Math.max(0, Math.floor(moment * ends * RATE) - QUANTUM));
          player.renderer.take({ type: 'replace-after', segmentId: `k${first.length - 1}`, segments: fresh });
          player.run(RATE * 60);
          expectNear(player.clicks(), expectedClicks([...first, ...fresh], LEAD));
          expect(player.starts().map(([id]) => id)).toEqual([...first, ...fresh].map(({ id }) => id));
        },
      ),
      { numRuns: 60 },
    );
  }, 60_000);

  it('keeps every click of what has started, however late and often messages come', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.integer({ min: 0, max: 400 }),
            fc.integer({ min: 0, max: 7 }),
            fc.integer({ min: 600, max: 2400 }),
          ),
          {
            maxLength: 12,
          },
        ),
        (messages) => {
          const passes = (tempo: number, from: number) =>
            Array.from({ length: 8 - from }, (_, index) => segment(`${from + index}`, { tempo }));
          const player = new Player();
          player.renderer.take({ type: 'play', segments: passes(120, 0) });
          for (const [quanta, after, tenths] of messages) {
            player.run(player.frame + quanta * QUANTUM);
            player.renderer.take({
              type: 'replace-after',
              segmentId: `${after}`,
              segments: passes(tenths / 10, after + 1),
            });
          }
          player.run(player.frame + RATE * 20);
          const played = player.events.flatMap((event) =>
            event.type === 'segment-start' ? [event.segment] : [],
          );
          // whatever the messages, each pass is played once, in order, and whole
          expect(played.map(({ id }) => id)).toEqual(['0', '1', '2', '3', '4', '5', '6', '7']);
          expectNear(player.clicks(), expectedClicks(played, LEAD));
        },
      ),
      { numRuns: 60 },
    );
  }, 60_000);

  it('lets a tentative pass that has begun play on when its replacement comes too late', () => {
    const player = new Player();
    const breath = segment('breath', { pattern: 'silent' });
    player.renderer.take({ type: 'play', segments: [segment('1'), breath, segment('2'), segment('rest')] });
    player.run(LEAD + 2.5 * RATE);
    player.renderer.take({
      type: 'replace-after',
      segmentId: 'breath',
      segments: [segment('2', { tempo: 60 }), segment('3')],
    });
    player.run(RATE * 6);
    expect(player.starts()).toEqual([
      ['1', LEAD],
      ['breath', LEAD + RATE],
      ['2', LEAD + 2 * RATE],
      ['3', LEAD + 3 * RATE],
    ]);
  });

  it('ends a wait at once, after the lead, and waits on while nothing follows', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('1'), waiting('wait')] });
    player.run(RATE * 20);
    expect(player.starts().map(([id]) => id)).toEqual(['1', 'wait']);
    const now = player.frame;
    player.renderer.take({
      type: 'replace-after',
      segmentId: 'wait',
      segments: [segment('2'), segment('3')],
    });
    player.run(now + 3 * RATE);
    expect(player.starts().slice(2)).toEqual([
      ['2', now + LEAD],
      ['3', now + LEAD + RATE],
    ]);
    expect(player.events.at(-1)?.type).toBe('finished');
  });

  it('starts at once when all had run dry, and does nothing for an id that is not known', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('1')] });
    player.run(RATE * 2);
    const now = player.frame;
    player.renderer.take({ type: 'replace-after', segmentId: 'unknown', segments: [segment('x')] });
    player.renderer.take({ type: 'replace-after', segmentId: '1', segments: [segment('2')] });
    player.run(RATE * 4);
    expect(player.starts()).toEqual([
      ['1', LEAD],
      ['2', now + LEAD],
    ]);
  });

  it('changes nothing after a stop', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('1'), segment('2')] });
    player.run(RATE);
    player.renderer.take({ type: 'stop' });
    player.renderer.take({ type: 'replace-after', segmentId: '1', segments: [segment('3')] });
    player.run(RATE * 4);
    expect(player.starts()).toEqual([['1', LEAD]]);
  });
});

describe('stopping, holding and volume', () => {
  const longest = (samples: Float32Array) =>
    samples.reduce((most, sample, index) => (sample === 0 ? most : index), -1);
  const steepest = (samples: Float32Array, from: number) =>
    samples
      .subarray(from)
      .reduce((most, sample, index, all) => Math.max(most, Math.abs(sample - (all[index - 1] ?? sample))), 0);

  it('stops in the middle of a click within the fade, without a step', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('1')] });
    player.run(LEAD + 3 * QUANTUM);
    const before = player.frame;
    const natural = steepest(player.samples, 0);
    player.renderer.take({ type: 'stop' });
    player.run(RATE);
    expect(longest(player.samples)).toBeGreaterThan(before);
    expect(longest(player.samples)).toBeLessThanOrEqual(before + Math.ceil(FADE_SEC * RATE));
    expect(steepest(player.samples, before - 1)).toBeLessThan(natural);
  });

  it('goes on after a pause as if no time had passed', () => {
    const segments = [segment('1', { pattern: 'eighths', tempo: 96.1 }), segment('2', { tempo: 70 })];
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), fc.integer({ min: 1, max: 500 }), (at, held) => {
        const player = new Player();
        player.renderer.take({ type: 'play', segments });
        const pausedAt = at * QUANTUM;
        player.run(pausedAt);
        player.renderer.take({ type: 'pause' });
        player.run(pausedAt + held * QUANTUM);
        player.renderer.take({ type: 'resume' });
        player.run(RATE * 6);
        const shift = held * QUANTUM;
        const expected = expectedClicks(segments, LEAD).map((frame) =>
          Math.round(frame) < pausedAt ? frame : frame + shift,
        );
        expectNear(player.clicks(), expected);
      }),
      { numRuns: 40 },
    );
  });

  it('answers a touch during a pause after the lead, once it goes on', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [segment('1'), waiting('wait')] });
    player.run(RATE * 2);
    player.renderer.take({ type: 'pause' });
    player.run(RATE * 3);
    player.renderer.take({ type: 'replace-after', segmentId: 'wait', segments: [segment('2')] });
    player.run(RATE * 4);
    const now = player.frame;
    player.renderer.take({ type: 'resume' });
    player.run(RATE * 6);
    expect(player.starts().at(-1)).toEqual(['2', now + LEAD]);
  });

  it('scales with the volume, and a segment of volume 0 is silent but counted', () => {
    const loudest = (volume: number, change: Partial<Segment>) => {
      const player = new Player();
      player.renderer.take({ type: 'volume', voice: 'click', volume });
      player.renderer.take({ type: 'play', segments: [segment('1', change)] });
      player.run(RATE);
      expect(player.clicks()).toHaveLength(2);
      return Math.max(...player.samples);
    };
    const full = loudest(1, {});
    expect(loudest(0.5, {})).toBeCloseTo(full / 2, 6);
    expect(loudest(1, { volume: 0.25 })).toBeCloseTo(full / 4, 6);
    expect(loudest(1, { volume: 0 })).toBe(0);
    expect(full).toBeLessThanOrEqual(0.9);
  });
});
