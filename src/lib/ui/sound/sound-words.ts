import type { Sounded } from '$lib/core/pluck/plucks';
import { say } from '$lib/texts/sound-choices';

/** How a passage is heard, as chosen. */
export interface HearingView {
  tempo: 'goal' | 'slow';
  times: 'once' | 'looped' | 'answers';
  sounded: Sounded;
  click: boolean;
}

/** A volume of 0 to 1 as a word. */
export function sayVolume(volume: number): string {
  if (volume === 0) return say.volumes.off;
  if (volume <= 0.25) return say.volumes.faint;
  if (volume <= 0.5) return say.volumes.soft;
  if (volume <= 0.75) return say.volumes.medium;
  return volume < 1 ? say.volumes.strong : say.volumes.full;
}

/** A volume for the ear: `medium, 14 of 20`. */
export function speakVolume(volume: number): string {
  const word = sayVolume(volume);
  return volume === 0 ? word : say.volumeSpoken(word, Math.round(volume * 20), 20);
}

/** How long the first of two notes is to the second: `straight`, `1.5 to 1`. */
export function saySwing(swing: number): string {
  return swing === 1 ? say.straight : say.swing(swing);
}

/** How far the beat on the screen is moved: later where the sound comes later than the device says. */
export function sayNudge(ms: number): string {
  if (ms === 0) return say.notMoved;
  return ms > 0 ? say.later(ms) : say.earlier(-ms);
}

/** `2 measures sound, 2 are silent`. */
export function saySilentMeasures({ on, off }: { on: number; off: number }): string {
  return say.silentMeasures(on, off);
}
