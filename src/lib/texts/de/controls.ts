import type { say } from '../controls';
import { inFigures, plural } from '../figures';

export const controls: typeof say = {
  on: 'an',
  off: 'aus',
  fewer: (label, step) => `${label}: ${step} weniger`,
  more: (label, step) => `${label}: ${step} mehr`,
  beats: (beats) => `${inFigures(beats)} ${plural(beats, { one: 'Schlag', other: 'Schläge' })}`,
};
