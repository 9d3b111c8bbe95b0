import { getDestination, getTransport, setContext } from 'tone';
import { ClickEngine } from '$lib/audio/click-engine';
import { clickSound } from '$lib/core/rhythm/click-sound';
import type { Segment } from '$lib/core/rhythm/segment';

/** Something that clicks ten times a second; `context` is the one that it plays through. */
export interface Player {
  context: AudioContext;
  stop: () => Promise<void>;
}

/** Opens a player that has something to play for so many seconds. */
export type OpenPlayer = (seconds: number) => Promise<Player>;

export const CLICKS_PER_SEC = 10;

/** The context that is opened next. */
function nextContext(): Promise<AudioContext> {
  const Real = AudioContext;
  return new Promise((resolve) => {
    window.AudioContext = class extends Real {
      constructor(options?: AudioContextOptions) {
        super(options);
        window.AudioContext = Real;
        resolve(this);
      }
    };
  });
}

/** The app's own engine: 300 beats a minute in eighths, 2/4. */
export const openEngine: OpenPlayer = async (seconds) => {
  const opened = nextContext();
  const engine = await ClickEngine.open();
  const context = await opened;
  const measures = Array.from({ length: 50 }, () => 2);
  const segments = Array.from({ length: Math.ceil(seconds / 20) }, (_, index): Segment => {
    return { id: `${index}`, kind: 'pass', meter: '2/4', tempo: 300, pattern: 'eighths', measures };
  });
  engine.play(segments);
  return { context, stop: () => engine.close() };
};

function clicker(context: AudioContext): (when: number) => void {
  const samples = new Float32Array(clickSound('wood', 'beat', context.sampleRate));
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.copyToChannel(samples, 0);
  return (when) => {
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(context.destination);
    source.start(when);
  };
}

/** The transport of `tone`, as it comes: it looks 0.1 s ahead. */
export const openTransport: OpenPlayer = async () => {
  const context = new AudioContext();
  await context.resume();
  setContext(context);
  getDestination();
  const click = clicker(context);
  const transport = getTransport();
  transport.scheduleRepeat(click, 1 / CLICKS_PER_SEC, 0);
  transport.start('+0.2');
  return {
    context,
    stop: async () => {
      transport.stop();
      transport.cancel();
      await context.close();
    },
  };
};

/** A timer of the page that clicks when it is called. */
export const openTimer: OpenPlayer = async () => {
  const context = new AudioContext();
  await context.resume();
  const click = clicker(context);
  const timer = setInterval(() => {
    click(0);
  }, 1000 / CLICKS_PER_SEC);
  return {
    context,
    stop: async () => {
      clearInterval(timer);
      await context.close();
    },
  };
};
