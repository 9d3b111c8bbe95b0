import { afterEach, describe, expect, it } from 'vitest';
import { ClickEngine, type SegmentStart } from '$lib/audio/click-engine';
import { StringPlayer, type Played } from '$lib/audio/string-player';
import workletUrl from '$lib/audio/worklets/click.worklet.ts?worker&url';
import { BanjoVoice } from '$lib/core/pluck/banjo-voice';
import { hearingSegments } from '$lib/core/pluck/hearing';
import type { Segment } from '$lib/core/rhythm/segment';
import { LEAD_SEC, renderSegments, SoundRenderer, type SoundCommand } from '$lib/core/rhythm/sound-render';
import type { Passage } from '$lib/core/tune/passage';
import { referenceTones } from '$lib/core/tune/retune';
import type { Strike } from '$lib/core/tune/strike';
import type { Tune } from '$lib/core/tune/tune';
import { sampleTune } from '../core/tune/sample';

const strike = (beat: number, string: Strike['string'], fret: number): Strike => ({
  onset: [beat, 4],
  duration: [1, 4],
  string,
  fret,
  technique: string === 5 ? 'drone' : 'strike',
});

/** One measure of 2/4, the first string on the first beat and the drone on the second, in every measure. */
function tuneWith(strikes: readonly Strike[]): Tune {
  const tune = sampleTune();
  return { ...tune, figures: tune.figures.map((figure) => ({ ...figure, strikes })) };
}

const tune = tuneWith([strike(0, 1, 0), strike(1, 5, 0)]);
const passage: Passage = { kind: 'figure', tuneId: tune.id, figureId: tune.figures[0]!.id };
const played: Played = {
  ...{ tune, passage, tempo: 240, sounded: 'both', pattern: 'silent', countIn: 1, answers: false },
};

const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function renderOffline(segments: Segment[], seconds: number, rate: number) {
  const context = new OfflineAudioContext(1, seconds * rate, rate);
  await context.audioWorklet.addModule(workletUrl);
  const commands: SoundCommand[] = [{ type: 'play', segments }];
  const node = new AudioWorkletNode(context, 'click', {
    ...{ numberOfInputs: 0, outputChannelCount: [1], processorOptions: { commands } },
  });
  node.connect(context.destination);
  return (await context.startRendering()).getChannelData(0);
}

describe.each([44_100, 48_000])('the string in the worklet at %i samples a second', (rate) => {
  it('sounds where the tab has it, in the same samples as in Node', async () => {
    const segments = hearingSegments({ ...played, tempo: 120, countIn: 0, passes: 2 });
    const samples = await renderOffline(segments, 3, rate);
    const lead = Math.round(LEAD_SEC * rate);
    expect(samples.findIndex((sample) => sample !== 0)).toBe(lead);
    const offline = renderSegments(segments, new SoundRenderer(rate, new BanjoVoice(rate)), rate);
    expect(offline).toHaveLength(2 * rate);
    const differs = offline.findIndex((sample, index) => Math.abs(sample - samples[lead + index]!) > 1e-6);
    expect(differs).toBe(-1);
    // each onset is louder than what rang on just before it
    for (const beat of [1, 2, 3]) {
      const at = lead + (beat * rate) / 2;
      const loudest = (from: number, to: number) =>
        samples.subarray(from, to).reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      expect(loudest(at, at + 960)).toBeGreaterThan(2 * loudest(at - 960, at));
    }
  });
});

/** An engine that only remembers what it was told. */
function remembering() {
  const calls: [name: string, ids: string[]][] = [];
  let listener: ((event: SegmentStart) => void) | null = null;
  const engine = {
    play: (segments: readonly Segment[]) => calls.push(['play', segments.map(({ id }) => id)]),
    replaceAfter: (id: string, segments: readonly Segment[]) =>
      calls.push([`after ${id}`, segments.map((segment) => segment.id)]),
    stop: () => calls.push(['stop', []]),
    onSegmentStart: (callback: (event: SegmentStart) => void) => {
      listener = callback;
      return () => (listener = null);
    },
  };
  const start = (segment: Segment) =>
    listener?.({ segmentId: segment.id, segment, startFrame: 0, startsAtMs: 0 });
  return { player: new StringPlayer(engine), calls, start };
}

describe('what the player asks of the engine', () => {
  const segmentsOf = (more: Partial<Played> = {}, firstPass = 1) =>
    hearingSegments({ ...played, ...more, passes: 1, firstPass });

  it('is one pass, or so many ahead that a busy page does not let a loop run dry', () => {
    const { player, calls } = remembering();
    expect(player.hear(played, 'once')).toBe(true);
    expect(calls.at(-1)).toEqual(['play', ['count-in', 'pass-1']]);
    player.hear(played, 'looped');
    // half a second each
    expect(calls.at(-1)?.[1]).toHaveLength(1 + 16);
  });

  it('goes on with the loop at each pass, and with the answer of the pass first', () => {
    const { player, calls, start } = remembering();
    player.hear({ ...played, answers: true }, 'looped');
    const [countIn, pass, answer] = segmentsOf({ answers: true });
    start(countIn!);
    expect(calls.at(-1)).toEqual([
      'after count-in',
      expect.arrayContaining(['pass-1', 'answer-1', 'pass-2']),
    ]);
    start(pass!);
    expect(calls.at(-1)?.[0]).toBe('after pass-1');
    expect(calls.at(-1)?.[1].slice(0, 3)).toEqual(['answer-1', 'pass-2', 'answer-2']);
    start(answer!);
    expect(calls.at(-1)?.[1].slice(0, 2)).toEqual(['pass-2', 'answer-2']);
  });

  it('takes nothing up after a stop, a single pass, or for a passage that is gone', () => {
    const { player, calls, start } = remembering();
    player.hear(played, 'looped');
    player.stop();
    start(segmentsOf()[1]!);
    player.change({ sounded: 'drone' });
    expect(calls.at(-1)).toEqual(['stop', []]);
    player.hear(played, 'once');
    start(segmentsOf()[1]!);
    expect(calls.at(-1)?.[0]).toBe('play');
    const before = calls.length;
    expect(player.hear({ ...played, passage: { ...passage, figureId: 'gone' } }, 'once')).toBe(false);
    expect(() => player.hear({ ...played, tempo: 1000 }, 'once')).toThrow(
      '30 to 240 beats per minute: saw 1000',
    );
    expect(calls).toHaveLength(before);
  });
});

describe('the player on the engine', () => {
  let engine: ClickEngine | undefined;
  afterEach(async () => {
    await engine?.close();
    engine = undefined;
  });

  it('brings an edit in between two passes, without a gap, and is silent after a stop', async () => {
    engine = await ClickEngine.open();
    const starts: SegmentStart[] = [];
    engine.onSegmentStart((start) => starts.push(start));
    const player = new StringPlayer(engine);
    player.hear(played, 'looped');
    const pitches = () => starts.slice(1).map(({ segment }) => segment.plucks?.map(({ pitch }) => pitch));
    const isEdited = (index: number) => pitches().at(index)?.length === 1;
    while (starts.length < 2) await sleep(5);
    player.change({ tune: tuneWith([strike(0, 1, 2)]) });
    while (!isEdited(-2)) await sleep(5);
    player.stop();
    const told = starts.length;
    // on a busy machine the page may have been late by a pass or more
    const late = pitches().findIndex((_, index) => isEdited(index));
    expect(pitches()).toEqual(pitches().map((_, index) => (index < late ? [62, 67] : [64])));
    expect(late).toBeGreaterThan(0);
    expect(starts.map(({ segmentId }) => segmentId)).toEqual([
      'count-in',
      ...pitches().map((_, index) => `pass-${index + 1}`),
    ]);
    const lengths = starts.slice(1).map(({ startFrame }, index) => startFrame - starts[index]!.startFrame);
    expect(new Set(lengths).size).toBe(1);
    await sleep(300);
    expect(starts).toHaveLength(told);
    expect(engine.now()).toBeNull();
  });

  it('gives one string to tune by', async () => {
    engine = await ClickEngine.open();
    const starts: SegmentStart[] = [];
    engine.onSegmentStart((start) => starts.push(start));
    const player = new StringPlayer(engine);
    player.tone(referenceTones(tune)[2]!);
    while (starts.length < 1) await sleep(5);
    expect(starts[0]?.segmentId).toBe('tone-3');
    player.stop();
    player.release();
  });
});
