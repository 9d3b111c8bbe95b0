import type { SoundCommand, SoundEvent } from '$lib/core/rhythm/sound-render';
import type { OutputClock } from './output-clock';

/** A device that plays what the renderer makes. Frames are those of its own clock, which starts anew with each device. */
export interface SoundOutput {
  readonly clock: OutputClock;
  /** Who is told what it plays; nobody from the time that it is `null`. */
  listener: OutputListener | null;
  /** A sentence for the learner when this output is weaker than it should be; else `null`. */
  readonly notice: string | null;
  /** Sound comes out at this moment. */
  readonly isRunning: boolean;
  send(command: SoundCommand): void;
  /** Asks the browser to let sound out again, within a user gesture; false when it does not. */
  wake(): Promise<boolean>;
  close(): Promise<void>;
}

export interface OutputListener {
  onEvents(events: readonly SoundEvent[]): void;
  /** Sound no longer comes out: a call, a lock screen, a lost device, a failed worklet. */
  onLost(): void;
}

/** How long a browser may take to let sound begin after a touch. */
const WAKE_LIMIT_MS = 2000;

/** Lets the fade of a last click reach the device. */
const CLOSING_MS = 30;

/** True when the context runs, at the latest after WAKE_LIMIT_MS. */
export async function wakeContext(context: AudioContext): Promise<boolean> {
  if (context.state === 'closed') return false;
  // a browser that wants a touch first leaves the promise open instead of rejecting it
  const limit = new Promise((resolve) => setTimeout(resolve, WAKE_LIMIT_MS));
  await Promise.race([context.resume().catch(() => undefined), limit]);
  return context.state === 'running';
}

export async function closeContext(context: AudioContext): Promise<void> {
  context.onstatechange = null;
  if (context.state === 'closed') return;
  await new Promise((resolve) => setTimeout(resolve, CLOSING_MS));
  await context.close();
}
