/** What a file in this folder sees of `AudioWorkletGlobalScope` (Web Audio API); TypeScript's DOM library leaves it out. */
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

declare function registerProcessor(
  name: string,
  processor: new (options: { processorOptions?: unknown }) => AudioWorkletProcessor & {
    process(inputs: Float32Array[][], outputs: Float32Array[][]): boolean;
  },
): void;

declare const sampleRate: number;

/** The first frame of the block that is being rendered. */
declare const currentFrame: number;
