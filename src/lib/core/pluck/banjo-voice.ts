import type { PluckCue } from '../rhythm/pluck-cue';
import type { Voice } from '../rhythm/voice';
import { Banjo } from './banjo';

/** The string under the timeline: touches fall on their frames, and what sounds is added to the block. */
export class BanjoVoice implements Voice<PluckCue> {
  readonly #banjo: Banjo;
  /** Struck and not yet sounded: those of one block. */
  readonly #due: { cue: PluckCue; frame: number }[] = [];
  #sound = new Float32Array(128);

  constructor(sampleRate: number) {
    this.#banjo = new Banjo(sampleRate);
  }

  strike(cue: PluckCue, frame: number): void {
    this.#due.push({ cue, frame });
  }

  render(output: Float32Array, frame: number): void {
    if (this.#sound.length < output.length) this.#sound = new Float32Array(output.length);
    let from = 0;
    for (const due of this.#due) {
      const to = Math.min(output.length, Math.max(from, due.frame - frame));
      this.#banjo.render(this.#sound, from, to);
      this.#banjo.touch(due.cue);
      from = to;
    }
    this.#due.length = 0;
    this.#banjo.render(this.#sound, from, output.length);
    for (let index = 0; index < output.length; index++) output[index]! += this.#sound[index]!;
  }

  silence(): void {
    this.#due.length = 0;
    this.#banjo.silence();
  }
}
