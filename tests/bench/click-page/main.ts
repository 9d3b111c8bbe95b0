import { ClickEngine } from '$lib/audio/click-engine';
import workletUrl from '$lib/audio/worklets/click.worklet.ts?worker&url';
import type { Segment } from '$lib/core/rhythm/segment';
import type { SoundCommand } from '$lib/core/rhythm/sound-render';
import { CLICKS_PER_SEC, openEngine, openTimer, openTransport, type OpenPlayer } from './players';
import recorderUrl from './recorder.worklet.ts?worker&url';

export interface Heard {
  due: number;
  /** Within one sample of where they belong. */
  right: number;
  missed: number;
}

export type Disturbance = { blockedMs: number; seconds: number } | { rows: number };

const PLAYERS: Record<string, OpenPlayer> = {
  engine: openEngine,
  transport: openTransport,
  timer: openTimer,
};

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

type Connect = (this: AudioNode, to: AudioNode, ...ports: number[]) => AudioNode;

/** All that plays into the output of a context, from before it is opened. */
const sources = new Map<BaseAudioContext, AudioNode[]>();
const connect = AudioNode.prototype.connect as Connect;
const connectAndTell: Connect = function (this: AudioNode, to, ...ports) {
  if (to === this.context.destination) {
    sources.set(this.context, [...(sources.get(this.context) ?? []), this]);
    const recorder = recorders.get(this.context);
    if (recorder) connect.call(this, recorder);
  }
  return connect.call(this, to, ...ports);
};
AudioNode.prototype.connect = connectAndTell as AudioNode['connect'];
const recorders = new Map<BaseAudioContext, AudioNode>();

/** Records what goes to the output of a context; resolves to what reads the frames at which it rose out of silence. */
async function record(context: AudioContext): Promise<() => Promise<number[]>> {
  await context.audioWorklet.addModule(recorderUrl);
  const recorder = new AudioWorkletNode(context, 'recorder', { numberOfOutputs: 1 });
  connect.call(recorder, context.destination);
  for (const source of sources.get(context) ?? []) connect.call(source, recorder);
  recorders.set(context, recorder);
  return () =>
    new Promise((resolve) => {
      recorder.port.onmessage = ({ data }: MessageEvent<number[]>) => {
        resolve(data);
      };
      recorder.port.postMessage(null);
    });
}

/** Rows of a pass's size, a thousand a transaction. */
async function writeRows(rows: number): Promise<void> {
  const name = `bench-${crypto.randomUUID()}`;
  const database = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onupgradeneeded = () => request.result.createObjectStore('rows', { keyPath: 'id' });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(new Error(String(request.error)));
  });
  for (let start = 0; start < rows; start += 1000) {
    const transaction = database.transaction('rows', 'readwrite');
    const store = transaction.objectStore('rows');
    for (let row = start; row < start + 1000; row++) {
      store.put({ id: crypto.randomUUID(), drillId: crypto.randomUUID(), tempo: 90, outcome: 'clean', row });
    }
    await new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(new Error(String(transaction.error)));
    });
  }
  database.close();
  indexedDB.deleteDatabase(name);
}

async function disturb(disturbance: Disturbance): Promise<void> {
  if ('rows' in disturbance) return writeRows(disturbance.rows);
  const end = performance.now() + disturbance.seconds * 1000;
  while (performance.now() < end) {
    const free = performance.now() + disturbance.blockedMs;
    while (performance.now() < free);
    await sleep(1);
  }
}

/** Each click against the grid that the first one starts; `seconds` is the length of what was to be heard. */
function judge(frames: readonly number[], sampleRate: number, seconds: number): Heard {
  const [first = 0] = frames;
  const gap = sampleRate / CLICKS_PER_SEC;
  const due = Math.floor(seconds * CLICKS_PER_SEC);
  const places = frames.map((frame) => (frame - first) / gap).filter((place) => place < due - 0.5);
  const isRight = (place: number) => Math.abs(place - Math.round(place)) * gap <= 1;
  return {
    due,
    right: new Set(places.filter(isRight).map(Math.round)).size,
    missed: due - new Set(places.map(Math.round)).size,
  };
}

/** Plays, disturbs, and says what became of the clicks. */
async function live(player: string, disturbance: Disturbance): Promise<Heard> {
  const open = PLAYERS[player];
  if (!open) throw new Error(`No player ${player}`);
  const playing = await open(600);
  const read = await record(playing.context);
  await sleep(1000);
  const from = (await read()).length;
  const start = playing.context.currentTime;
  await disturb(disturbance);
  const seconds = playing.context.currentTime - start;
  await sleep(500);
  const frames = (await read()).slice(from);
  await playing.stop();
  return judge(frames, playing.context.sampleRate, Math.max(0, seconds - 0.3));
}

const long = (tempo: number, change: Partial<Segment> = {}): Segment => ({
  ...{ id: String(tempo), kind: 'pass', meter: '2/4', tempo, pattern: 'down-stroke' },
  measures: Array.from({ length: 8 }, () => 2),
  ...change,
});

/** From asking for the engine to the moment at which the first click is heard, in ms. */
async function startToFirstClick(): Promise<number> {
  const asked = performance.now();
  const engine = await ClickEngine.open();
  const heard = new Promise<number>((resolve) => engine.onStroke(({ heardAtMs }) => resolve(heardAtMs)));
  engine.play([long(120)]);
  const ms = (await heard) - asked;
  await engine.close();
  return ms;
}

/** Looks at the beat in every frame, as the drill does, for some seconds; or at nothing. */
async function follow(seconds: number, withClick: boolean): Promise<void> {
  const engine = withClick ? await ClickEngine.open() : null;
  engine?.play([long(120), long(126), long(132), long(138), long(144)]);
  let frame = 0;
  const look = () => {
    engine?.now();
    frame = requestAnimationFrame(look);
  };
  look();
  await sleep(seconds * 1000);
  cancelAnimationFrame(frame);
  await engine?.close();
}

/** Milliseconds that the worklet takes for so many seconds of sound, as fast as it can. */
async function renderMs(segments: readonly Segment[], seconds: number): Promise<number> {
  const rate = 48_000;
  const context = new OfflineAudioContext(1, seconds * rate, rate);
  await context.audioWorklet.addModule(workletUrl);
  const commands: SoundCommand[] = segments.length > 0 ? [{ type: 'play', segments }] : [];
  const node = new AudioWorkletNode(context, 'click', {
    numberOfInputs: 0,
    outputChannelCount: [1],
    processorOptions: { commands },
  });
  node.connect(context.destination);
  const start = performance.now();
  await context.startRendering();
  return performance.now() - start;
}

export interface ClickBench {
  live: typeof live;
  startToFirstClick: typeof startToFirstClick;
  follow: typeof follow;
  renderMs: typeof renderMs;
}

declare global {
  interface Window {
    clickBench: ClickBench;
  }
}

window.clickBench = { live, startToFirstClick, follow, renderMs };
