import { inFigures, plural } from './figures';
import { spoken } from './spoken';

/** What switches, steppers and labels of measures say wherever they stand. */
export const say = spoken('controls', {
  on: 'on',
  off: 'off',
  fewer: (label: string, step: number) => `${label}: ${step} fewer`,
  more: (label: string, step: number) => `${label}: ${step} more`,
  /** `1 beat`, `2.5 beats`. */
  beats: (beats: number) => `${inFigures(beats)} ${plural(beats, { one: 'beat', other: 'beats' })}`,
});
