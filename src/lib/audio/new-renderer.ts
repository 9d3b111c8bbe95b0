import { BanjoVoice } from '../core/pluck/banjo-voice';
import { SoundRenderer } from '../core/rhythm/sound-render';

/** The voices that the app plays with, in the worklet and without one alike. */
export function newRenderer(sampleRate: number): SoundRenderer {
  return new SoundRenderer(sampleRate, new BanjoVoice(sampleRate));
}
