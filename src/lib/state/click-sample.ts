import type { ClickEngine, Segment } from '$lib/audio/click-engine';
import type { Settings } from '$lib/core/book/settings';

/** Beats a minute of the sample, in 2/4. */
const TEMPO = 100;
const BEATS = 2;

type SampleChoices = Pick<Settings, 'clickPattern' | 'clickVolume' | 'clickSound' | 'swing'>;

let current: { engine: Promise<ClickEngine>; end: () => void } | null = null;

/**
 * Plays two measures of a pattern (the silent one: a count-in and a silent measure) and resolves when they are over
 * or `stopClickSample` cut them short. Call it within a user gesture. Rejects with a sentence when there is no sound
 * to be had.
 */
export async function playClickSample(choices: SampleChoices): Promise<void> {
  stopClickSample();
  let end: () => void = () => undefined;
  const over = new Promise<void>((resolve) => (end = resolve));
  const sample = { engine: openEngine(), end };
  current = sample;
  try {
    const engine = await sample.engine;
    if (current === sample) {
      engine.onFinished(end);
      engine.onInterrupted(end);
      engine.setVolume(choices.clickVolume);
      engine.setSound(choices.clickSound);
      engine.play(sampleSegments(choices));
      await over;
    }
    await engine.close();
  } finally {
    if (current === sample) current = null;
  }
}

export function stopClickSample(): void {
  current?.end();
  current = null;
}

/** Moves the volume of a sample that is playing. */
export async function setClickSampleVolume(volume: number): Promise<void> {
  (await current?.engine)?.setVolume(volume);
}

async function openEngine(): Promise<ClickEngine> {
  const { ClickEngine } = await import('$lib/audio/click-engine');
  return ClickEngine.open();
}

function sampleSegments({ clickPattern: pattern, swing }: SampleChoices): Segment[] {
  const common = { meter: '2/4', tempo: TEMPO, swing } as const;
  if (pattern !== 'silent')
    return [{ ...common, id: 'sample', kind: 'pass', pattern, measures: [BEATS, BEATS] }];
  return [
    { ...common, id: 'sample-count-in', kind: 'count-in', pattern: 'beat', measures: [BEATS] },
    { ...common, id: 'sample', kind: 'pass', pattern, measures: [BEATS] },
  ];
}
