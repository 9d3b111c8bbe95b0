import { say } from '$lib/texts/sound-device';
import { LookAheadOutput } from './look-ahead-output';
import { wakeContext, type SoundOutput } from './sound-output';
import { WorkletOutput } from './worklet-output';

/** The click cannot be played here and now; the message is a sentence for the learner. */
export class ClickUnavailable extends Error {
  override readonly name = 'ClickUnavailable';
}

/**
 * Opens the audio device, within a user gesture: on the audio thread, or from the page where there is no audio worklet.
 * Throws ClickUnavailable when there is no sound at all, the browser refuses it, or the worklet cannot be loaded.
 */
export async function openOutput(): Promise<SoundOutput> {
  if (typeof AudioContext === 'undefined') {
    throw new ClickUnavailable(say.noClick);
  }
  const context = openContext();
  try {
    // before the first await: a browser may count the gesture as spent after it
    if (!(await wakeContext(context))) {
      throw new ClickUnavailable(say.soundOff);
    }
    return await outputFor(context);
  } catch (error) {
    await context.close();
    throw error;
  }
}

async function outputFor(context: AudioContext): Promise<SoundOutput> {
  // pages that are not served securely have none either
  if (typeof AudioWorkletNode === 'undefined' || !('audioWorklet' in context)) {
    return new LookAheadOutput(context);
  }
  try {
    return await WorkletOutput.open(context);
  } catch {
    throw new ClickUnavailable(say.notLoaded);
  }
}

function openContext(): AudioContext {
  try {
    return new AudioContext({ latencyHint: 'balanced' });
  } catch {
    throw new ClickUnavailable(say.noSound);
  }
}
