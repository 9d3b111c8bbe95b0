import type { Touch } from '../rhythm/pluck-cue';

/** How a touch sets a string moving. All values are ours, chosen by what `tests/core/pluck` measures. */
export interface Excitation {
  /** Where on the string, as a share of its length from the bridge: takes out every partial with a node there. */
  place: number;
  /** Length of the pulse that a nail or a fingertip gives. */
  pulseSec: number;
  /** Share of noise (skin and nail on the winding) beside the pulse. */
  noise: number;
  /** The dynamic-level filter (Jaffe & Smith 1983): above it a stroke at full strength, and below it a soft one, fades. */
  brightHz: number;
  dullHz: number;
}

export const EXCITATIONS: Record<Exclude<Touch, 'damp'>, Excitation> = {
  nail: { place: 0.17, pulseSec: 0.0003, noise: 0.25, brightHz: 9000, dullHz: 1600 },
  thumb: { place: 0.16, pulseSec: 0.0004, noise: 0.18, brightHz: 8000, dullHz: 2500 },
  tap: { place: 0.38, pulseSec: 0.0009, noise: 0.1, brightHz: 3500, dullHz: 1200 },
  // the winding under the finger; without it a slide late in a note could not be heard
  stay: { place: 0.4, pulseSec: 0.0012, noise: 0.3, brightHz: 3000, dullHz: 1200 },
  pull: { place: 0.33, pulseSec: 0.0006, noise: 0.12, brightHz: 4500, dullHz: 1500 },
};
