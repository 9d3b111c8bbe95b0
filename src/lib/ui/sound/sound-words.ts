import type { Sounded } from '$lib/core/pluck/plucks';

/** How a passage is heard, as chosen. */
export interface HearingView {
  tempo: 'goal' | 'slow';
  times: 'once' | 'looped' | 'answers';
  sounded: Sounded;
  click: boolean;
}

/** A volume of 0 to 1 as a word. */
export function sayVolume(volume: number): string {
  if (volume === 0) return 'off';
  if (volume <= 0.25) return 'faint';
  if (volume <= 0.5) return 'soft';
  if (volume <= 0.75) return 'medium';
  return volume < 1 ? 'strong' : 'full';
}

/** A volume for the ear: `medium, 14 of 20`. */
export function speakVolume(volume: number): string {
  const word = sayVolume(volume);
  return volume === 0 ? word : `${word}, ${Math.round(volume * 20)} of 20`;
}

/** How long the first of two notes is to the second: `straight`, `1.5 to 1`. */
export function saySwing(swing: number): string {
  return swing === 1 ? 'straight' : `${Number(swing.toFixed(2))} to 1`;
}

/** How far the beat on the screen is moved: later where the sound comes later than the device says. */
export function sayNudge(ms: number): string {
  if (ms === 0) return 'not moved';
  return `${Math.abs(ms)} ms ${ms > 0 ? 'later' : 'earlier'}`;
}

/** `2 measures sound, 2 are silent`. */
export function saySilentMeasures({ on, off }: { on: number; off: number }): string {
  const sounding = on === 1 ? 'One measure sounds' : `${on} measures sound`;
  return `${sounding}, ${off === 1 ? 'one is' : `${off} are`} silent, and round again: keep going, and hear whether you come out together.`;
}
