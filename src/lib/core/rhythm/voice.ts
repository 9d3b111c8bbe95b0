/** From full to nothing: long enough not to pop, short enough to be "at once". */
export const FADE_SEC = 0.004;

/**
 * A source of sound under the timeline: the click is one, the string another. A voice holds no clock, and knows
 * nothing of segments, pauses or what is to come: the timeline hands it each cue in the block in which the cue falls.
 */
export interface Voice<Cue> {
  /**
   * Begin to sound `cue` at `frame`. It lies inside the block that `render` is asked for next; cues come in order of time.
   * `framesPerBeat` is the tempo there.
   */
  strike(cue: Cue, frame: number, framesPerBeat: number): void;
  /**
   * Add (do not overwrite) what sounds to `output`, whose first sample is `frame`. Blocks follow each other without a
   * gap; their length may change. No sample may leave the range -1 to 1 by this voice alone.
   */
  render(output: Float32Array, frame: number): void;
  /** Fade whatever sounds to nothing within FADE_SEC, from the next block on. */
  silence(): void;
}
