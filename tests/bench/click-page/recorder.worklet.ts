/** Silence between two clicks that are heard as two. */
const SILENCE_SEC = 0.02;

/** Notes the frame at which sound rises out of silence, each time, and hands the list over when asked. */
class Recorder extends AudioWorkletProcessor {
  #frames: number[] = [];
  #last = -Infinity;

  constructor() {
    super();
    this.port.onmessage = () => {
      this.port.postMessage(this.#frames);
    };
  }

  process(inputs: Float32Array[][]): boolean {
    const input = inputs[0]?.[0];
    for (let index = 0; input && index < input.length; index++) {
      if (input[index] === 0) continue;
      const frame = currentFrame + index;
      if (frame - this.#last > SILENCE_SEC * sampleRate) this.#frames.push(frame);
      this.#last = frame;
    }
    return true;
  }
}

registerProcessor('recorder', Recorder);
