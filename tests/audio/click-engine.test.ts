import { afterEach, describe, expect, it } from 'vitest';
import { ClickEngine, type ClickStroke, type SegmentStart } from '$lib/audio/click-engine';
import workletUrl from '$lib/audio/worklets/click.worklet.ts?worker&url';
import {
  LEAD_SEC,
  renderSegments,
  SoundRenderer,
  type SoundCommand,
  type SoundEvent,
} from '$lib/core/rhythm/sound-render';
import { FADE_SEC } from '$lib/core/rhythm/voice';
import { clickSamples } from '$lib/core/rhythm/click-times';
import type { Segment } from '$lib/core/rhythm/segment';
import { steadyTempo } from '$lib/core/rhythm/tempo-map';
import { blockPage, sleep, until } from './contexts';

function segment(id: string, change: Partial<Segment> = {}): Segment {
  return { id, kind: 'pass', meter: '2/4', tempo: 240, measures: [2, 2], pattern: 'beat', ...change };
}

const renderClick = (segments: readonly Segment[], rate: number) =>
  renderSegments(segments, new SoundRenderer(rate), rate);

async function renderOffline(commands: SoundCommand[], seconds: number, rate: number) {
  const context = new OfflineAudioContext(1, seconds * rate, rate);
  await context.audioWorklet.addModule(workletUrl);
  const node = new AudioWorkletNode(context, 'click', {
    numberOfInputs: 0,
    outputChannelCount: [1],
    processorOptions: { commands },
  });
  const events: SoundEvent[] = [];
  node.port.onmessage = ({ data }: MessageEvent<SoundEvent[]>) => {
    events.push(...data);
  };
  node.connect(context.destination);
  const buffer = await context.startRendering();
  await sleep(50);
  return { samples: buffer.getChannelData(0), events };
}

function onsets(samples: Float32Array, rate: number): number[] {
  const found: number[] = [];
  let silent = Infinity;
  samples.forEach((sample, index) => {
    if (sample !== 0 && silent > rate * 0.002) found.push(index);
    silent = sample === 0 ? silent + 1 : 0;
  });
  return found;
}

describe.each([44_100, 48_000])('the worklet rendered offline at %i samples a second', (rate) => {
  const segments = [
    segment('count', { kind: 'count-in', tempo: 97.3, measures: [2] }),
    segment('pass', { tempo: 97.3, pattern: 'down-stroke', measures: [2, 3, 1.5] }),
  ];
  const lead = Math.round(LEAD_SEC * rate);
  const seconds = 6;

  it('puts every click at the sample that exact arithmetic gives, and the same samples as Node', async () => {
    const { samples, events } = await renderOffline([{ type: 'play', segments }], seconds, rate);
    const tempo = steadyTempo(97.3);
    const [count, pass] = segments as [Segment, Segment];
    const expected = [
      ...clickSamples(count, tempo, rate),
      ...clickSamples(pass, tempo, rate, [1200n * BigInt(rate), 973n]),
    ].map(({ sample }) => lead + sample);
    expect(onsets(samples, rate)).toEqual(expected);
    expect(events.flatMap((event) => (event.type === 'click' ? [event.frame] : []))).toEqual(expected);
    const whole = renderClick(segments, rate);
    expect(samples.subarray(lead, lead + whole.length)).toEqual(whole);
  });
});

/** Lets the worklet render up to `stopAtSec`, sends `stop` by message as the engine does, and renders the rest. */
async function renderStopped(stopAtSec: number, rate: number): Promise<Float32Array> {
  const context = new OfflineAudioContext(1, rate, rate);
  await context.audioWorklet.addModule(workletUrl);
  const play: SoundCommand = { type: 'play', segments: [segment('1')] };
  const node = new AudioWorkletNode(context, 'click', {
    numberOfInputs: 0,
    outputChannelCount: [1],
    processorOptions: { commands: [play] },
  });
  node.connect(context.destination);
  void context.suspend(stopAtSec).then(async () => {
    node.port.postMessage({ type: 'stop' });
    await sleep(50);
    await context.resume();
  });
  return (await context.startRendering()).getChannelData(0);
}

describe('a stop in the middle of a click', () => {
  const steepest = (samples: Float32Array) =>
    samples.reduce(
      (most, sample, index) => Math.max(most, Math.abs(sample - (samples[index - 1] ?? sample))),
      0,
    );

  it('leaves silence after the fade, without a step that the click itself would not make', async () => {
    const rate = 48_000;
    const stopAt = Math.ceil((LEAD_SEC * rate + 300) / 128) * 128;
    const samples = await renderStopped(stopAt / rate, rate);
    const last = samples.reduce((latest, sample, index) => (sample === 0 ? latest : index), -1);
    expect(last).toBeGreaterThan(stopAt);
    expect(last).toBeLessThanOrEqual(stopAt + 2 * 128 + Math.ceil(FADE_SEC * rate));
    const undisturbed = renderClick([segment('1')], rate).subarray(stopAt - LEAD_SEC * rate - 1, rate / 10);
    expect(steepest(samples.subarray(stopAt - 1))).toBeLessThan(steepest(undisturbed) + 0.01);
    expect(Math.abs(samples[last] ?? 1)).toBeLessThan(0.005);
  });
});

// a machine under load starves the headless audio device and shifts its timestamps, which is not what is checked here: so
// the two that compare timestamps may be tried again; the frames of the others no load may change
describe('the engine in a running page', () => {
  let engine: ClickEngine | undefined;

  async function open() {
    engine = await ClickEngine.open();
    const strokes: ClickStroke[] = [];
    const starts: SegmentStart[] = [];
    engine.onStroke((stroke) => strokes.push(stroke));
    engine.onSegmentStart((start) => starts.push(start));
    const finished = new Promise<void>((resolve) => engine?.onFinished(resolve));
    return { engine, strokes, starts, finished };
  }

  afterEach(async () => {
    await engine?.close();
    engine = undefined;
  });

  it('moves and loses no click while the page is blocked for 300 ms again and again', async () => {
    const { engine, strokes, starts, finished } = await open();
    const names = Array.from({ length: 6 }, (_, index) => `${index}`);
    engine.play(names.map((id) => segment(id)));
    let isOver = false;
    void finished.then(() => (isOver = true));
    while (!isOver) {
      blockPage(300);
      await sleep(1);
    }
    expect(starts.map(({ segmentId }) => segmentId)).toEqual(names);
    expect(strokes).toHaveLength(24);
    // both quarter seconds and whole seconds are whole numbers of samples at every usual rate
    const perBeat = (starts[1]!.startFrame - starts[0]!.startFrame) / 4;
    strokes.forEach(({ frame }, k) => {
      expect(frame).toBe(starts[0]!.startFrame + k * perBeat);
    });
  });

  it(
    'says when a segment is heard: after it was asked for, and as far apart as the segments are long',
    { retry: 2 },
    async () => {
      const { engine, starts, finished } = await open();
      await sleep(300);
      const askedAt = performance.now();
      engine.play([segment('1'), segment('2')]);
      await finished;
      expect(starts[0]!.startsAtMs - askedAt).toBeGreaterThan(LEAD_SEC * 1000 - 15);
      expect(starts[0]!.startsAtMs - askedAt).toBeLessThan(500);
      expect(Math.abs(starts[1]!.startsAtMs - starts[0]!.startsAtMs - 1000)).toBeLessThan(25);
    },
  );

  it('knows the segment and the beat that are heard now, and nothing when silent', { retry: 2 }, async () => {
    const { engine, starts, finished } = await open();
    expect(engine.now()).toBeNull();
    engine.play([segment('1'), segment('2')]);
    let checked = 0;
    let isOver = false;
    void finished.then(() => (isOver = true));
    while (!isOver) {
      await sleep(20);
      const now = engine.now();
      const start = starts.at(-1);
      if (!now || !start || now.segment.id !== start.segmentId) continue;
      const beats = ((performance.now() - start.startsAtMs) / 1000) * (240 / 60);
      expect(Math.abs(now.beats - beats)).toBeLessThan(0.15);
      checked += 1;
    }
    expect(checked).toBeGreaterThan(20);
    await sleep(300);
    expect(engine.now()).toBeNull();
  });

  it('replaces a tentative pass during the breath, without a gap', async () => {
    const { engine, starts, strokes, finished } = await open();
    const breath = segment('breath', { kind: 'breath', pattern: 'silent', measures: [4, 4] });
    engine.play([segment('1'), breath, segment('2'), segment('3')]);
    const off = engine.onSegmentStart(({ segmentId }) => {
      if (segmentId === 'breath') engine.replaceAfter('breath', [segment('2', { tempo: 200 })]);
    });
    await finished;
    off();
    expect(starts.map(({ segmentId, segment }) => [segmentId, segment.tempo])).toEqual([
      ['1', 240],
      ['breath', 240],
      ['2', 200],
    ]);
    const second = starts[1]!.startFrame - starts[0]!.startFrame;
    expect(starts[2]!.startFrame - starts[1]!.startFrame).toBe(2 * second);
    expect(strokes).toHaveLength(8);
  });

  it('holds and goes on, and tells nothing after a stop', async () => {
    const { engine, strokes, starts } = await open();
    engine.play([segment('1'), segment('2')]);
    await sleep(400);
    engine.pause();
    await sleep(100);
    const heard = strokes.length;
    const held = engine.now()?.beats;
    await sleep(700);
    expect(strokes).toHaveLength(heard);
    expect(engine.now()?.beats).toBe(held);
    engine.resume();
    await sleep(600);
    expect(strokes.length).toBeGreaterThan(heard);
    engine.stop();
    const told = strokes.length + starts.length;
    await sleep(400);
    expect(strokes.length + starts.length).toBe(told);
    expect(engine.now()).toBeNull();
  });

  it('changes tempo and pattern from a beat on, and the beat that is shown with it', async () => {
    const { engine, strokes, finished } = await open();
    engine.play([segment('1', { measures: [2, 2, 2, 2] })]);
    await until(() => strokes.length >= 2);
    engine.change({ tempo: 120, pattern: 'eighths' });
    await until(() => engine.now()?.segment.tempo === 120);
    await finished;
    const first = strokes[0]!.frame;
    // a quarter of a second a beat before the change, and after it a quarter of a second an eighth
    const quarter = strokes[1]!.frame - first;
    expect(strokes.map(({ frame }) => frame - first)).toEqual(strokes.map((_, index) => index * quarter));
    const lights = strokes.filter(({ accent }) => accent === 'light').length;
    expect(lights).toBeGreaterThan(3);
    expect(strokes.length - lights).toBe(8);
  });

  it('moves what is shown, not what sounds, by the nudge', async () => {
    const { engine } = await open();
    engine.play([segment('1', { measures: Array.from({ length: 8 }, () => 2) })]);
    await until(() => (engine.now()?.beats ?? 0) > 4);
    const plain = engine.now()!.beats;
    engine.setNudge(300);
    expect(Math.abs(plain - engine.now()!.beats - 1.2)).toBeLessThan(0.2);
    engine.setNudge(NaN);
    expect(engine.now()!.beats).toBeGreaterThanOrEqual(plain);
  });

  it('refuses a segment that cannot be played before anything is sent', async () => {
    const { engine } = await open();
    expect(() => {
      engine.play([segment('fast', { tempo: 1000 })]);
    }).toThrow('Segment fast: A tempo lies between 20 and 300 beats per minute: saw 1000');
    expect(() => {
      engine.replaceAfter('1', [segment('none', { tempo: NaN })]);
    }).toThrow(RangeError);
    expect(() => {
      engine.play([]);
    }).toThrow('nothing to play');
    for (const change of [{ tempo: 0 }, { swing: 9 }, { silentMeasures: { on: 0, off: 1 } }]) {
      expect(() => {
        engine.change(change);
      }).toThrow(RangeError);
    }
  });
});
