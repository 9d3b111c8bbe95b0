import type { ClickEngine, Segment } from '$lib/audio/click-engine';
import type { Settings } from '$lib/core/book/settings';
import { COMMON_TUNINGS } from '$lib/core/tune/tuning';
import type { SoundChoices } from './sound-device.svelte';

/** Two measures of the click; the open strings, one after the other; a pulse to set the visual beat by. */
export type Sample = 'click' | 'string' | 'pulse';

type SampleChoices = SoundChoices & Pick<Settings, 'clickPattern' | 'swing' | 'tuning'>;

/** Beats a minute of the sample, in 2/4. */
const TEMPO = 100;
const BEATS = 2;
/** One flash a second, for a minute. */
const PULSE_TEMPO = 60;
const PULSE_MEASURES = 30;
/** The share of a beat for which the pulse is lit. */
const LIT = 0.2;
/** From the low one up, the short string last. */
const STRINGS = [4, 3, 2, 1, 5] as const;

let current: { engine: Promise<ClickEngine>; end: () => void } | null = null;

/**
 * Plays a sample and resolves when it is over or `stopSample` cut it short. `onLit` tells, of the pulse, when its beat is
 * heard. Call it within a user gesture. Rejects with a sentence when there is no sound to be had.
 */
export async function playSample(
  kind: Sample,
  choices: SampleChoices,
  onLit: (isLit: boolean) => void = () => undefined,
): Promise<void> {
  stopSample();
  let end: () => void = () => undefined;
  const over = new Promise<void>((resolve) => (end = resolve));
  const sample = { engine: openEngine(), end };
  current = sample;
  try {
    const engine = await sample.engine;
    if (current === sample) {
      engine.onFinished(end);
      engine.onInterrupted(end);
      setLevels(engine, choices);
      engine.play(SEGMENTS[kind](choices));
      const stopWatching = kind === 'pulse' ? watchBeat(engine, onLit) : () => undefined;
      await over;
      stopWatching();
    }
    await engine.close();
  } finally {
    if (current === sample) current = null;
  }
}

export function stopSample(): void {
  current?.end();
  current = null;
}

/** What is chosen while a sample plays is heard in it: volumes and sound at once, the pattern from the next beat. */
export async function changeSample(choices: SampleChoices): Promise<void> {
  const engine = await current?.engine.catch(() => null);
  if (engine) setLevels(engine, choices);
}

function setLevels(
  engine: ClickEngine,
  { clickVolume, pluckVolume, clickSound, latencyNudgeMs }: SoundChoices,
): void {
  engine.setVolume(clickVolume);
  engine.setStringVolume(pluckVolume);
  engine.setSound(clickSound);
  engine.setNudge(latencyNudgeMs);
}

async function openEngine(): Promise<ClickEngine> {
  const { ClickEngine } = await import('$lib/audio/click-engine');
  return ClickEngine.open();
}

/** Tells whether the beat that is heard has just begun, whenever that changes, until the function that it returns is called. */
function watchBeat(engine: ClickEngine, onLit: (isLit: boolean) => void): () => void {
  let wasLit = false;
  let frame = requestAnimationFrame(function look() {
    frame = requestAnimationFrame(look);
    const beats = engine.now()?.beats ?? LIT;
    const isLit = beats % 1 < LIT;
    if (isLit !== wasLit) onLit(isLit);
    wasLit = isLit;
  });
  return () => {
    cancelAnimationFrame(frame);
    onLit(false);
  };
}

const SEGMENTS: Record<Sample, (choices: SampleChoices) => Segment[]> = {
  click: clickSegments,
  string: stringSegments,
  pulse: () => [
    {
      id: 'sample',
      kind: 'pass',
      meter: '2/4',
      tempo: PULSE_TEMPO,
      pattern: 'beat',
      measures: Array.from({ length: PULSE_MEASURES }, () => BEATS),
    },
  ],
};

function clickSegments({ clickPattern: pattern, swing }: SampleChoices): Segment[] {
  const common = { meter: '2/4', tempo: TEMPO, swing } as const;
  if (pattern !== 'silent')
    return [{ ...common, id: 'sample', kind: 'pass', pattern, measures: [BEATS, BEATS] }];
  return [
    { ...common, id: 'sample-count-in', kind: 'count-in', pattern: 'beat', measures: [BEATS] },
    { ...common, id: 'sample', kind: 'pass', pattern, measures: [BEATS] },
  ];
}

function stringSegments({ tuning }: SampleChoices): Segment[] {
  const pitches = tuning ?? COMMON_TUNINGS[0]?.tuning;
  const plucks = STRINGS.flatMap((string, index) => {
    const pitch = pitches?.[5 - string];
    return pitch === undefined ? [] : [{ at: [index, 2] as const, string, pitch }];
  });
  const measures = [BEATS, BEATS];
  return [{ id: 'sample', kind: 'pass', meter: '2/4', tempo: TEMPO, pattern: 'silent', measures, plucks }];
}
