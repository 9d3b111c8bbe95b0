import type { SoundCommand, SoundEvent } from '$lib/core/rhythm/sound-render';
import { scriptUrl } from '$lib/script-urls';
import type { OutputClock } from './output-clock';
import { closeContext, wakeContext, type OutputListener, type SoundOutput } from './sound-output';
import workletUrl from './worklets/click.worklet.ts?worker&url';

/** Renders on the audio thread: nothing that the page does can move or lose a click. */
export class WorkletOutput implements SoundOutput {
  readonly notice = null;
  listener: OutputListener | null = null;
  readonly #context: AudioContext;
  readonly #node: AudioWorkletNode;
  #hasFailed = false;

  private constructor(context: AudioContext) {
    this.#context = context;
    this.#node = new AudioWorkletNode(context, 'click', { numberOfInputs: 0, outputChannelCount: [1] });
    this.#node.port.onmessage = ({ data }: MessageEvent<SoundEvent[]>) => {
      this.listener?.onEvents(data);
    };
    this.#node.onprocessorerror = () => {
      this.#hasFailed = true;
      this.listener?.onLost();
    };
    context.onstatechange = () => {
      if (context.state !== 'running') this.listener?.onLost();
    };
    this.#node.connect(context.destination);
  }

  /** Rejects when the worklet cannot be loaded. */
  static async open(context: AudioContext): Promise<WorkletOutput> {
    await context.audioWorklet.addModule(scriptUrl(workletUrl));
    return new WorkletOutput(context);
  }

  get clock(): OutputClock {
    return this.#context;
  }

  get isRunning(): boolean {
    return !this.#hasFailed && this.#context.state === 'running';
  }

  send(command: SoundCommand): void {
    this.#node.port.postMessage(command);
  }

  async wake(): Promise<boolean> {
    return !this.#hasFailed && (await wakeContext(this.#context));
  }

  async close(): Promise<void> {
    this.send({ type: 'stop' });
    await closeContext(this.#context);
  }
}
