import { ClickRenderer, type ClickCommand } from '../../core/rhythm/click-render';

/** Mailbox around `ClickRenderer`: takes commands, posts the events of a block as one list when there are any. */
class ClickProcessor extends AudioWorkletProcessor {
  readonly #renderer = new ClickRenderer(sampleRate);

  constructor(options: { processorOptions?: unknown }) {
    super();
    // commands given at construction hold from the very first block, which no message can promise
    const { commands = [] } = (options.processorOptions ?? {}) as { commands?: ClickCommand[] };
    for (const command of commands) this.#renderer.take(command);
    this.port.onmessage = ({ data }: MessageEvent<ClickCommand>) => {
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
