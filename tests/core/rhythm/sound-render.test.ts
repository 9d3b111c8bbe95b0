import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEAD_SEC, renderSegments, SoundRenderer, type SoundEvent } from '$lib/core/rhythm/sound-render';
import { FADE_SEC, type Voice } from '$lib/core/rhythm/voice';
import { clickSamples, runBeats } from '$lib/core/rhythm/click-times';
import { clickSound } from '$lib/core/rhythm/click-sound';
import { METERS } from '$lib/core/rhythm/meter';
import { PATTERNS } from '$lib/core/rhythm/patterns';
import type { PluckCue } from '$lib/core/rhythm/pluck-cue';
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
  readonly renderer: SoundRenderer;
  readonly events: SoundEvent[] = [];
  readonly blocks: Float32Array[] = [];
  frame = 0;

  constructor(string: Voice<PluckCue> | null = null) {
    this.renderer = new SoundRenderer(RATE, string);
  }

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

describe('changing what plays', () => {
  const long = (change: Partial<Segment> = {}) =>
    segment('1', { measures: Array.from({ length: 8 }, () => 2), ...change });
  const near = (actual: readonly number[], expected: readonly number[]) => {
    expect(actual).toHaveLength(expected.length);
    actual.forEach((frame, index) => expect(Math.abs(frame - expected[index]!)).toBeLessThanOrEqual(0.5));
  };

  it('takes a new tempo from the next beat on, without a gap or a doubled click, whenever it comes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3200 }),
        fc.integer({ min: 300, max: 3000 }),
        fc.constantFrom('beat' as const, 'eighths' as const),
        (quanta, tenths, pattern) => {
          const player = new Player();
          player.renderer.take({ type: 'play', segments: [long({ pattern }), segment('2', { pattern })] });
          player.run(quanta * QUANTUM);
          player.renderer.take({ type: 'change', change: { tempo: tenths / 10 } });
          player.run(RATE * 45);
          const [old, fresh] = [RATE / 2, (600 * RATE) / tenths];
          // the block in which the change holds begins here; what began before it keeps its tempo
          const beatsBefore = Math.ceil((quanta * QUANTUM - LEAD) / old);
          // unless nothing has begun yet, or the change comes on the last beat of a segment and so holds from the next one
          const hasBegun = quanta * QUANTUM > LEAD - (LEAD % QUANTUM);
          const at = hasBegun ? Math.min(18, Math.max(0, beatsBefore)) : 0;
          const step = pattern === 'beat' ? 1 : 0.5;
          const expected = Array.from({ length: 18 / step }, (_, index) => {
            const beat = index * step;
            return LEAD + (beat < at ? beat * old : at * old + (beat - at) * fresh);
          });
          near(player.clicks(), expected);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('takes a new pattern at the next beat, in passes only', () => {
    const player = new Player();
    const segments = [segment('c', { kind: 'count-in' }), long(), segment('3')];
    player.renderer.take({ type: 'play', segments });
    player.run(LEAD + 0.6 * RATE);
    player.renderer.take({ type: 'change', change: { pattern: 'silent' } });
    player.run(LEAD + 2.3 * RATE);
    player.renderer.take({ type: 'change', change: { pattern: 'eighths', swing: 2 } });
    player.run(LEAD + 3.1 * RATE);
    player.renderer.take({ type: 'change', change: { pattern: 'beat', silentMeasures: { on: 1, off: 1 } } });
    player.run(LEAD + 6.1 * RATE);
    player.renderer.take({ type: 'change', change: { silentMeasures: null } });
    player.run(RATE * 20);
    const seconds = player.clicks().map((frame) => (frame - LEAD) / RATE);
    // the count-in keeps its two; silent until 2.5; swung eighths up to 3.5; of the beats on and off by the measure
    // (from 1 s: 3 to 4 on, 4 to 5 off, ...), then all from 6.5
    const swung = [2.5, 2.5 + 1 / 3, 3, 3 + 1 / 3];
    const beats = [3.5, 5, 5.5, ...Array.from({ length: 7 }, (_, index) => 6.5 + index / 2)];
    expect(seconds.map((at) => Math.round(at * 1000))).toEqual(
      [0, 0.5, ...swung, ...beats].map((at) => Math.round(at * 1000)),
    );
  });

  it('tells the page, so that the beat that is shown follows', () => {
    const player = new Player();
    player.renderer.take({ type: 'play', segments: [long()] });
    player.run(LEAD + 0.6 * RATE);
    player.renderer.take({ type: 'change', change: { tempo: 60 } });
    player.run(LEAD + 0.7 * RATE);
    const change = player.events.find(({ type }) => type === 'segment-change');
    expect(change).toMatchObject({ segment: { id: '1', tempo: 60 }, frame: LEAD + RATE });
  });

  it('ends a ramp, and comes after a pause where it would have come without one', () => {
    const clicks = (held: number) => {
      const player = new Player();
      player.renderer.take({ type: 'play', segments: [long({ toTempo: 200 })] });
      player.run(LEAD + RATE);
      if (held > 0) player.renderer.take({ type: 'pause' });
      player.run(player.frame + held);
      player.renderer.take({ type: 'change', change: { tempo: 90 } });
      if (held > 0) player.renderer.take({ type: 'resume' });
      player.run(RATE * 20);
      return player.clicks();
    };
    const straight = clicks(0);
    expect(straight.slice(-2)[1]! - straight.slice(-2)[0]!).toBe(RATE / 1.5);
    const pausedAt = LEAD + RATE;
    expect(clicks(QUANTUM * 50)).toEqual(
      straight.map((frame) => (frame < pausedAt ? frame : frame + QUANTUM * 50)),
    );
  });
});

describe('a ramp in a segment', () => {
  it('ends where its mean tempo says, and what follows starts there', () => {
    const player = new Player();
    const ramp = segment('up', { tempo: 60, toTempo: 120, measures: Array.from({ length: 15 }, () => 2) });
    player.renderer.take({ type: 'play', segments: [ramp, segment('on')] });
    player.run(RATE * 22);
    expect(player.starts()).toEqual([
      ['up', LEAD],
      ['on', LEAD + 20 * RATE],
    ]);
    const clicks = player.clicks();
    const gaps = clicks.slice(1, 31).map((frame, index) => frame - clicks[index]!);
    expect(gaps[0]!).toBeGreaterThan(0.97 * RATE);
    expect(gaps.every((gap, index) => index === 0 || gap < gaps[index - 1]!)).toBe(true);
  });
});

/** A string that sounds 0.5 for ten samples, and keeps what it was told. */
class Pips implements Voice<PluckCue> {
  readonly told: { pitch: number; frame: number; framesPerBeat: number }[] = [];
  silenced = 0;
  readonly #height: number;

  constructor(height: number) {
    this.#height = height;
  }

  strike({ pitch }: PluckCue, frame: number, framesPerBeat: number): void {
    this.told.push({ pitch, frame, framesPerBeat });
  }

  render(output: Float32Array, frame: number): void {
    for (const pip of this.told) {
      for (let at = pip.frame; at < pip.frame + 10; at++) {
        if (at >= frame && at < frame + output.length) output[at - frame]! += this.#height;
      }
    }
  }

  silence(): void {
    this.silenced += 1;
  }
}

describe('another voice in the same timeline', () => {
  const plucks = [
    { at: [0, 1], string: 1, pitch: 62 },
    { at: [1, 3], string: 5, pitch: 67 },
    { at: [7, 4], string: 2, pitch: 59 },
  ] as const;

  it('is struck at the exact sample, with the tempo there, and the click with it', () => {
    const string = new Pips(0.5);
    const player = new Player(string);
    player.renderer.take({ type: 'play', segments: [segment('1', { plucks, tempo: 90 })] });
    player.run(RATE * 3);
    const perBeat = (60 * RATE) / 90;
    expect(string.told).toEqual([
      { pitch: 62, frame: LEAD, framesPerBeat: perBeat },
      { pitch: 67, frame: LEAD + Math.round(perBeat / 3), framesPerBeat: perBeat },
      { pitch: 59, frame: LEAD + 1.75 * perBeat, framesPerBeat: perBeat },
    ]);
    expect(player.clicks()).toEqual([LEAD, LEAD + perBeat]);
  });

  it('has a volume of its own', () => {
    const volumes = (click: number, string: number) => {
      const player = new Player(new Pips(0.5));
      player.renderer.take({ type: 'volume', voice: 'click', volume: click });
      player.renderer.take({ type: 'volume', voice: 'string', volume: string });
      player.renderer.take({ type: 'play', segments: [segment('1', { plucks: [plucks[1]] })] });
      player.run(RATE);
      const third = LEAD + RATE / 6;
      return [Math.max(...player.samples.subarray(0, third)), Math.max(...player.samples.subarray(third))];
    };
    const [click] = volumes(1, 0);
    expect(volumes(1, 0)[1]).toBeLessThan(click! + 1e-6);
    expect(volumes(0, 1)).toEqual([0, 0.5]);
    expect(volumes(0, 0.5)).toEqual([0, 0.25]);
    expect(volumes(0.5, 1)[0]).toBeCloseTo(click! / 2, 6);
  });

  it('is silenced by stop and pause, and hears nothing of what was to come', () => {
    for (const type of ['stop', 'pause'] as const) {
      const string = new Pips(0.5);
      const player = new Player(string);
      player.renderer.take({ type: 'play', segments: [segment('1', { plucks })] });
      player.run(LEAD + QUANTUM);
      const before = string.silenced;
      player.renderer.take({ type });
      player.run(RATE * 4);
      expect(string.silenced).toBe(before + 1);
      expect(string.told).toHaveLength(1);
    }
  });

  it('and the click stay below full scale together, and are untouched up to 0.9', () => {
    const loudest = (height: number) => {
      const player = new Player(new Pips(height));
      player.renderer.take({ type: 'play', segments: [segment('1', { plucks: [plucks[0]] })] });
      player.run(LEAD + QUANTUM * 30);
      return player.samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    };
    expect(loudest(0)).toBeCloseTo(0.9, 6);
    expect(loudest(1)).toBeGreaterThan(0.95);
    expect(loudest(1)).toBeLessThan(1);
  });
});

describe('what a beat sounds like', () => {
  const firstSamples = (player: Player) => player.samples.subarray(LEAD, LEAD + 500);

  it('is the click that was chosen', () => {
    for (const sound of ['wood', 'bell', 'rim'] as const) {
      const player = new Player();
      player.renderer.take({ type: 'click-sound', sound });
      player.renderer.take({ type: 'play', segments: [segment('1')] });
      player.run(RATE);
      expect(firstSamples(player)).toEqual(clickSound(sound, 'first', RATE).subarray(0, 500));
    }
  });

  it('is the number of the beat when it is counted aloud, and a click where there is no word for it', () => {
    const player = new Player();
    const words = [0.1, 0.2].map((height) => new Float32Array(500).fill(height));
    player.renderer.take({ type: 'count-words', words });
    const count = { kind: 'count-in', meter: '3/4', measures: [3], spoken: true } as const;
    player.renderer.take({ type: 'play', segments: [segment('1', count)] });
    player.run(RATE * 2);
    const heights = [0, 1, 2].map((beat) => player.samples[LEAD + (beat * RATE) / 2 + 400]!);
    expect(heights[0]).toBeCloseTo(0.1, 6);
    expect(heights[1]).toBeCloseTo(0.2, 6);
    expect(heights[2]).toBeCloseTo(clickSound('wood', 'beat', RATE)[400]!, 6);
  });

  it('is nothing for no segments', () => {
    expect(() => renderClick([], RATE)).toThrow('nothing to play');
  });
});
