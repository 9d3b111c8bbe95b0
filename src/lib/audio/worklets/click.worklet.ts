import type { SoundCommand } from '../../core/rhythm/sound-render';
import { newRenderer } from '../new-renderer';

/** Mailbox around a renderer: takes commands, posts the events of a block as one list when there are any. */
class ClickProcessor extends AudioWorkletProcessor {
  readonly #renderer = newRenderer(sampleRate);

  constructor(options: { processorOptions?: unknown }) {
    super();
    // commands given at construction hold from the very first block, which no message can promise
    const { commands = [] } = (options.processorOptions ?? {}) as { commands?: SoundCommand[] };
    for (const command of commands) this.#renderer.take(command);
    this.port.onmessage = ({ data }: MessageEvent<SoundCommand>) => {
      this.#renderer.take(data);
    };
  }

  process(_inputs: Float32Array[][], outputs: Float32Array[][]): boolean {
    const output = outputs[0]?.[0];
    if (!output) return true;
    const events = this.#renderer.render(output, currentFrame);
    if (events.length > 0) this.port.postMessage(events);
    return true;
  }
}

registerProcessor('click', ClickProcessor);
