import { beliefAround, comfortableTempo } from './estimate';
import { TECHNIQUES } from '../tune/strike';
import type { Figure } from '../tune/tune';

/** Where an unplayed passage's settled tempo is expected: a tempo, and a standard deviation in log tempo. */
export interface Prior {
  tempo: number;
  spread: number;
}

/** With nothing to go by: about half the goal (common practice: begin at half tempo). */
export const FIRST_RATIO = 0.5;
const WIDEST = 0.32;
const NARROWEST = 0.16;
/** A seam is expected to lag its slower figure by this, in log tempo: the hand has somewhere to go. */
const SEAM_LAG = 0.1;
/** Every doubling of the links in a passage is expected to cost this, in log tempo. */
const LAG_A_DOUBLING = 0.04;

/** A played figure that a new one may resemble. */
export interface Relative {
  tempo: number;
  /** 0..1. */
  likeness: number;
}

/** A figure's prior from played figures of the same tune, drawn towards what the learner's figures reach of their goals. */
export function figurePrior(goal: number, usualRatio: number, relatives: readonly Relative[]): Prior {
  let weight = 1;
  let sum = Math.log(usualRatio * goal);
  for (const { tempo, likeness } of relatives) {
    weight += likeness;
    sum += likeness * Math.log(tempo);
  }
  return { tempo: Math.exp(sum / weight), spread: Math.max(NARROWEST, WIDEST / Math.sqrt(weight)) };
}

/** A seam's prior from its two figures. */
export function seamPrior(fromTempo: number, toTempo: number): Prior {
  return { tempo: Math.min(fromTempo, toTempo) * Math.exp(-SEAM_LAG), spread: 0.22 };
}

/** The prior of a phrase, a part or a tune from its links: a little under its slowest one. */
export function joinedPrior(linkTempos: readonly number[]): Prior {
  const slowest = linkTempos.reduce((least, tempo) => Math.min(least, tempo), Infinity);
  return {
    tempo: slowest * Math.exp(-LAG_A_DOUBLING * Math.log2(linkTempos.length)),
    spread: 0.28,
  };
}

/** The techniques and strings of a measure as bits; `null` without tab. */
export function handTraits(figure: Figure): number | null {
  if (figure.strikes === null) return null;
  let traits = 0;
  for (const { technique, string } of figure.strikes) {
    traits |= (1 << TECHNIQUES.indexOf(technique)) | (1 << (TECHNIQUES.length + string));
  }
  return traits;
}

/** How alike two measures are to the hands, 0..1: shared traits over all of theirs. Half when either has no tab. */
export function likeness(a: number | null, b: number | null): number {
  if (a === null || b === null) return 0.5;
  const all = bitsSet(a | b);
  return all === 0 ? 1 : bitsSet(a & b) / all;
}

function bitsSet(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count += 1;
  return count;
}

const comfortableShares = new Map<number, number>();

/** The tempo at which a clean pass is about 95 % likely by the prior alone. */
export function comfortableOfPrior({ tempo, spread }: Prior): number {
  const hundredths = Math.round(spread * 100);
  let share = comfortableShares.get(hundredths);
  if (share === undefined) {
    share = comfortableTempo(beliefAround(REFERENCE, hundredths / 100)) / REFERENCE;
    comfortableShares.set(hundredths, share);
  }
  return tempo * share;
}

/** Mid-grid, where a belief is cut at neither end; the share is the same at every tempo. */
const REFERENCE = 75;
