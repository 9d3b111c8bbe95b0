import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ClickEngine } from '$lib/audio/click-engine';
import type { Segment } from '$lib/core/rhythm/segment';
import { blockPage, sleep, until, watchContexts } from './contexts';

function segment(id: string, change: Partial<Segment> = {}): Segment {
  return { id, kind: 'pass', meter: '2/4', tempo: 240, measures: [2, 2], pattern: 'beat', ...change };
}

/** What the page handed to the audio clock, by frame. */
let handed: { frame: number; samples: Float32Array }[] = [];
let late = 0;
let contexts: AudioContext[] = [];
let engine: ClickEngine | undefined;

beforeEach(() => {
  handed = [];
  late = 0;
  vi.stubGlobal('AudioWorkletNode', undefined);
  contexts = watchContexts();
  const { start } = AudioBufferSourceNode.prototype;
  vi.spyOn(AudioBufferSourceNode.prototype, 'start').mockImplementation(function (
    this: AudioBufferSourceNode,
    when = 0,
  ) {
    if (when < this.context.currentTime) late += 1;
    const { sampleRate } = this.context;
    handed.push({ frame: when * sampleRate, samples: this.buffer!.getChannelData(0) });
    start.call(this, when);
  });
});

afterEach(async () => {
  await engine?.close();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

async function open() {
  engine = await ClickEngine.open();
  const frames: number[] = [];
  engine.onStroke(({ frame }) => frames.push(frame));
  let isOver = false;
  engine.onFinished(() => (isOver = true));
  return { engine, frames, isOver: () => isOver };
}

/** Where what was handed over rises out of silence. */
function onsets(rate: number): number[] {
  const found: number[] = [];
  let last = -Infinity;
  for (const { frame, samples } of handed) {
    samples.forEach((sample, index) => {
      if (sample === 0) return;
      if (frame + index - last > rate * 0.02) found.push(Math.round(frame + index));
      last = frame + index;
    });
  }
  return found;
}

describe('without an audio worklet', () => {
  it('says so in a sentence, and hands every click to the audio clock at its exact frame', async () => {
    const { engine, frames, isOver } = await open();
    expect(engine.notice).toMatch(/^This browser .*\.$/);
    engine.play([segment('1'), segment('2', { tempo: 173.9, pattern: 'down-stroke' })]);
    while (!isOver()) {
      blockPage(250);
      await sleep(5);
    }
    const rate = contexts[0]!.sampleRate;
    const second = Array.from({ length: 4 }, (_, beat) => [beat, beat + 0.5, beat + 0.75]).flat();
    const expected = [
      ...[0, 1, 2, 3].map((beat) => (beat * rate) / 4),
      ...second.map((beat) => rate + (beat * 600 * rate) / 1739),
    ];
    expect(frames.map((frame) => frame - frames[0]!)).toEqual(expected.map(Math.round));
    expect(onsets(rate)).toEqual(frames);
    expect(late).toBe(0);
  });

  it('stops at once: what was rendered ahead is not heard', async () => {
    const { engine, frames } = await open();
    engine.play([segment('1', { measures: Array.from({ length: 20 }, () => 2) })]);
    await until(() => frames.length > 2);
    engine.stop();
    const told = frames.length;
    await sleep(300);
    expect(frames).toHaveLength(told);
    expect(engine.now()).toBeNull();
    engine.play([segment('again')]);
    await until(() => frames.length === told + 4);
    const asked = frames[told]! / contexts[0]!.sampleRate;
    expect(asked).toBeLessThan(contexts[0]!.currentTime + 0.6);
  });

  it('holds and goes on, and every click is played once', async () => {
    const { engine, frames, isOver } = await open();
    engine.play([segment('1'), segment('2')]);
    await until(() => engine.now() !== null);
    engine.pause();
    await until(() => contexts[0]!.state === 'suspended');
    await sleep(200);
    const held = engine.now()?.beats;
    await sleep(300);
    expect(engine.now()?.beats).toBe(held);
    engine.resume();
    await until(isOver);
    expect(frames).toHaveLength(8);
    expect(onsets(contexts[0]!.sampleRate)).toEqual(frames);
  });
});
