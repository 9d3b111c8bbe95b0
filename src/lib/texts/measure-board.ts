import { plural } from './figures';
import { spoken } from './spoken';

/** The board of a tune's measures and what its signs mean. Measures are counted from 1. */
export const say = spoken('measureBoard', {
  // over a tile
  /** Of a measure that is longer or shorter than the others. */
  crooked: (measure: number, beats: string) => `${measure} · ${beats}`,
  /** Of the last measure, left over after full lines. */
  over: (measure: number) => `${measure} over`,

  // for the ear
  tile: (part: string, heading: string, says: readonly string[]) =>
    `Part ${part}, measure ${heading}: ${says.join(', ')}`,
  settled: (tempo: number, goal: number, low: number, high: number) =>
    `${tempo} of ${goal}, likely between ${low} and ${high}`,
  notPlayed: 'not played yet',
  mark: (letters: string) => `mark ${letters}`,
  changed: 'changed in this layer',
  seam: (first: number, last: number, part: string) => `Seam ${first} to ${last}, part ${part}`,
  /** Of two parts; by their labels: `A8`, `B1`. */
  seamBetween: (first: string, last: string) => `Seam ${first} to ${last}`,
  seamSettled: (seam: string, tempo: number, goal: number) => `${seam}: ${tempo} of ${goal}`,
  seamOpen: (seam: string) => `${seam}: open, not played yet`,
  seamClosed: (seam: string) => `${seam}: opens when both measures are settled`,

  // around the tiles
  partSize: (measures: number, figures: number) =>
    `${measures} ${plural(measures, { one: 'measure', other: 'measures' })}, ${figures} to learn`,
  wholePart: 'Whole part',
  goal: (tempo: number) => `goal ${tempo}`,
  fromOnTo: (label: string) => `From ${label} on to`,
  open: 'open',

  // what the signs mean
  goalLine: (tempo: number) => `goal line, ${tempo}`,
  sameMark: 'same mark, same figure',
  rungs: 'rungs: how far a seam holds',
  grain: 'grain: rusty',
  inlay: 'inlay: changed in this layer',
});
