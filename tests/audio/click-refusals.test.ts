import { afterEach, describe, expect, it, vi } from 'vitest';
import { ClickEngine, ClickUnavailable } from '$lib/audio/click-engine';

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
    const contexts: AudioContext[] = [];
    const Real = AudioContext;
    vi.stubGlobal(
      'AudioContext',
      class extends Real {
        constructor(options?: AudioContextOptions) {
          super(options);
          contexts.push(this);
        }
      },
    );
    const engine = await ClickEngine.open();
    let interruptions = 0;
    const frames: number[] = [];
    engine.onInterrupted(() => (interruptions += 1));
    engine.onStroke(({ frame }) => frames.push(frame));
    engine.play([
      { id: '1', kind: 'pass', meter: '2/4', pattern: 'beat', tempo: 300, measures: [2, 2, 2, 2, 2, 2] },
    ]);
    await new Promise((resolve) => setTimeout(resolve, 500));
    await contexts[0]!.suspend();
    await contexts[0]!.resume();
    await new Promise((resolve) => setTimeout(resolve, 200));
    const before = frames.length;
    await new Promise((resolve) => setTimeout(resolve, 600));
    expect(interruptions).toBe(1);
    expect(frames).toHaveLength(before);
    const finished = new Promise<void>((resolve) => engine.onFinished(resolve));
    engine.resume();
    await finished;
    expect(frames).toHaveLength(12);
    await engine.close();
  });
});
