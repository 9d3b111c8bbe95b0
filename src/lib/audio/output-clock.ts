/** The part of an AudioContext that tells how far its sound has come. Old browsers lack some of it. */
export interface OutputClock {
  readonly sampleRate: number;
  readonly currentTime: number;
  readonly baseLatency?: number;
  readonly outputLatency?: number;
  getOutputTimestamp?(): { contextTime?: number; performanceTime?: number };
}

/**
 * A timestamp further from now than this is of another clock: WebKit counts `performanceTime` from the start of its process
 * (measured in WebKitGTK 2.50), which would show every beat seconds late. No device holds its sound back that long.
 */
const TIMESTAMP_MAX_MS = 1000;

/**
 * The moment, in milliseconds of `performance.now()`, at which a frame of the context leaves the device. From
 * `getOutputTimestamp` where the browser fills it in, else from `currentTime` and the latency that it reports.
 */
export function heardAtMs(clock: OutputClock, frame: number, nowMs: number): number {
  const { contextTime, performanceTime } = anchor(clock, nowMs);
  return performanceTime + (frame / clock.sampleRate - contextTime) * 1000;
}

/** The frame (not rounded) that leaves the device at `nowMs`. */
export function heardFrame(clock: OutputClock, nowMs: number): number {
  const { contextTime, performanceTime } = anchor(clock, nowMs);
  return (contextTime + (nowMs - performanceTime) / 1000) * clock.sampleRate;
}

function anchor(clock: OutputClock, nowMs: number): { contextTime: number; performanceTime: number } {
  const { contextTime = 0, performanceTime = 0 } = clock.getOutputTimestamp?.() ?? {};
  const isOfThisClock = Math.abs(performanceTime - nowMs) < TIMESTAMP_MAX_MS;
  if (contextTime > 0 && performanceTime > 0 && isOfThisClock) return { contextTime, performanceTime };
  const latency = clock.outputLatency || clock.baseLatency || 0;
  return { contextTime: clock.currentTime - latency, performanceTime: nowMs };
}
