import { afterEach, describe, expect, it, vi } from 'vitest';
import { ClickEngine, ClickUnavailable } from '$lib/audio/click-engine';
import type { Segment } from '$lib/core/rhythm/segment';
import { sleep, until, watchContexts } from './contexts';

/** A device that the browser keeps silent, as it does before a touch. */
class SilentContext {
  static readonly closed: SilentContext[] = [];
  readonly sampleRate = 48_000;
  readonly state = 'suspended';
  readonly audioWorklet = {};
  resume(): Promise<void> {
    return new Promise(() => undefined);
  }
  close(): Promise<void> {
    SilentContext.closed.push(this);
    return Promise.resolve();
  }
}

async function refusal(): Promise<unknown> {
  return ClickEngine.open().then(
    () => undefined,
    (error: unknown) => error,
  );
}

afterEach(() => {
  vi.unstubAllGlobals();
});

describe('where the click cannot play, the engine says so in a plain sentence', () => {
  it('without any audio', async () => {
    vi.stubGlobal('AudioContext', undefined);
    const error = await refusal();
    expect(error).toBeInstanceOf(ClickUnavailable);
    expect(String(error)).toContain('You can still drill without it.');
  });

  it('when the browser keeps the sound off, and lets the device go', async () => {
    vi.stubGlobal('AudioContext', SilentContext);
    const error = await refusal();
    expect(error).toBeInstanceOf(ClickUnavailable);
    expect(String(error)).toContain('Touch the screen once');
    expect(SilentContext.closed).toHaveLength(1);
  });

  it('when there is no device at all', async () => {
    function NoDevice() {
      throw new DOMException('no device', 'NotSupportedError');
    }
    vi.stubGlobal('AudioContext', NoDevice);
    expect(await refusal()).toBeInstanceOf(ClickUnavailable);
  });

  it('and when the system takes the sound away, it holds until told to go on', async () => {
    const contexts = watchContexts();
    const engine = await ClickEngine.open();
    let interruptions = 0;
    const frames: number[] = [];
    engine.onInterrupted(() => (interruptions += 1));
    engine.onStroke(({ frame }) => frames.push(frame));
    engine.play([
      { id: '1', kind: 'pass', meter: '2/4', pattern: 'beat', tempo: 300, measures: [2, 2, 2, 2, 2, 2] },
    ]);
    await sleep(500);
    await contexts[0]!.suspend();
    await contexts[0]!.resume();
    await sleep(200);
    const before = frames.length;
    await sleep(600);
    expect(interruptions).toBe(1);
    expect(frames).toHaveLength(before);
    const finished = new Promise<void>((resolve) => engine.onFinished(resolve));
    engine.resume();
    await finished;
    expect(frames).toHaveLength(12);
    await engine.close();
  });
});

const pass = (change: Partial<Segment> = {}): Segment => ({
  ...{ id: '1', kind: 'pass', meter: '2/4', pattern: 'beat', tempo: 300, measures: [2, 2] },
  ...change,
});

describe('a device that had gone silent', () => {
  it('wakes when something is played again', async () => {
    const contexts = watchContexts();
    const engine = await ClickEngine.open();
    const frames: number[] = [];
    engine.onStroke(({ frame }) => frames.push(frame));
    await contexts[0]!.suspend();
    engine.play([pass()]);
    await until(() => frames.length === 4);
    expect(contexts).toHaveLength(1);
    await engine.close();
  });

  it('is replaced by another when it is gone for good, at the rate of the new one, with the same sound', async () => {
    const contexts = watchContexts([{ sampleRate: 48_000 }, { sampleRate: 22_050 }]);
    const engine = await ClickEngine.open();
    const frames: number[] = [];
    let interruptions = 0;
    engine.onStroke(({ frame }) => frames.push(frame));
    engine.onInterrupted(() => (interruptions += 1));
    engine.setSound('rim');
    engine.play([pass({ measures: [2, 2, 2, 2, 2, 2] })]);
    await until(() => frames.length > 2);
    await contexts[0]!.close();
    await until(() => interruptions === 1);
    const before = frames.length;
    engine.play([pass({ spoken: true })]);
    await until(() => frames.length === before + 4);
    expect(contexts.map(({ sampleRate }) => sampleRate)).toEqual([48_000, 22_050]);
    const fresh = frames.slice(before).map((frame) => frame - frames[before]!);
    expect(fresh).toEqual([0, 4410, 8820, 13_230]);
    await engine.close();
  });

  it('says that it was interrupted when no other can be had', async () => {
    const contexts = watchContexts();
    const engine = await ClickEngine.open();
    const interrupted = new Promise<void>((resolve) => engine.onInterrupted(resolve));
    await contexts[0]!.close();
    vi.stubGlobal('AudioContext', undefined);
    engine.play([pass()]);
    await interrupted;
    await engine.close();
  });
});

it('two engines at once do not disturb each other', async () => {
  const engines = await Promise.all([ClickEngine.open(), ClickEngine.open()]);
  const strokes = await Promise.all(
    engines.map(async (engine, index) => {
      const frames: number[] = [];
      engine.onStroke(({ frame }) => frames.push(frame));
      const finished = new Promise<void>((resolve) => engine.onFinished(resolve));
      engine.play([pass({ tempo: 200 + 100 * index, measures: [2, 2, 2] })]);
      await finished;
      return frames.map((frame) => frame - frames[0]!);
    }),
  );
  expect(strokes.map((frames) => frames.length)).toEqual([6, 6]);
  const gap = (frames: number[] | undefined) => frames![1]! - frames![0]!;
  expect(gap(strokes[0]) / gap(strokes[1])).toBeCloseTo(1.5, 6);
  for (const frames of strokes) expect(frames).toEqual(frames.map((_, index) => index * gap(frames)));
  await Promise.all(engines.map((engine) => engine.close()));
});
