import { say } from '../../texts/retuning';
import {
  frequencyHz,
  pitchName,
  sameTuning,
  soundingPitch,
  type Setup,
  type StringNumber,
  type Tuning,
} from './tuning';

/** What a string is to sound like, played open, with capo and spike in place. */
export interface ReferenceTone {
  string: StringNumber;
  /** Without its octave, in sharps. */
  name: string;
  midi: number;
  hz: number;
}

export type RetuneStep =
  | { kind: 'capo-off'; sentence: string }
  | { kind: 'spike-off'; sentence: string }
  | { kind: 'capo'; fret: number; sentence: string }
  /** In semitones, from below 0 (lower) to above 0; `null`: from a pitch that is not known. */
  | { kind: 'string'; string: StringNumber; to: number; change: number | null; sentence: string }
  | { kind: 'short-string'; to: number; change: number | null; sentence: string };

export interface Retuning {
  /** In the order in which they are best done. Empty: nothing is to be done. */
  steps: readonly RetuneStep[];
  /** About strings that would be raised far above their usual pitch; empty when none are. */
  cautions: readonly string[];
}

/** What tuning up needs of a neck: the tuning with what is on it. */
export type NeckSetup = Pick<Setup, 'tuning' | 'capo' | 'spike'>;

/** As tunings are written. */
const STRINGS: readonly StringNumber[] = [5, 4, 3, 2, 1];
const LONG_STRINGS: readonly StringNumber[] = [4, 3, 2, 1];

/** Where each string usually lies, fifth to first (gDGBD; common practice): string sets are made for about this. */
const USUAL: Tuning = [67, 50, 55, 59, 62];

/** Frets' worth above the usual pitch up to which players go with ordinary strings (aEAC#E raises one by two or three: common practice). */
const RAISED_AT_MOST = 3;

/** The reference tone of every string, in the order in which tunings are written: fifth to first. */
export function referenceTones(setup: NeckSetup): ReferenceTone[] {
  return STRINGS.map((string) => {
    const midi = soundingPitch(setup, string, 0);
    return { string, midi, name: pitchName(midi), hz: frequencyHz(midi) };
  });
}

/**
 * How to get from the setup in hand (`null`: not known) to another. What changes the neck comes off first, then strings
 * are lowered before others are raised, so that the neck never bears more than it will, the long ones from the fourth to
 * the first; then the capo goes on, and the short string follows it.
 */
export function retuning(inHand: NeckSetup | null, wanted: NeckSetup): Retuning {
  const steps = inHand ? knownSteps(inHand, wanted) : unknownSteps(wanted);
  const raised = inHand && sameTuning(inHand.tuning, wanted.tuning) ? [] : cautionsFor(wanted);
  return { steps, cautions: raised };
}

function knownSteps(inHand: NeckSetup, wanted: NeckSetup): RetuneStep[] {
  const movesCapo = inHand.capo !== wanted.capo;
  const tunesLong = LONG_STRINGS.some((string) => pitchOf(inHand, string) !== pitchOf(wanted, string));
  const offFirst = inHand.capo > 0 && (movesCapo || tunesLong);
  const steps: RetuneStep[] = offFirst ? [{ kind: 'capo-off', sentence: say.capoOff }] : [];
  const changes = LONG_STRINGS.map((string) => ({
    string,
    to: pitchOf(wanted, string),
    change: pitchOf(wanted, string) - pitchOf(inHand, string),
  }));
  for (const change of [
    ...changes.filter((one) => one.change < 0),
    ...changes.filter((one) => one.change > 0),
  ]) {
    steps.push({
      kind: 'string',
      ...change,
      sentence: turned(change.string, change.change, change.to),
    });
  }
  const capoOn = wanted.capo > 0 && (movesCapo || offFirst);
  return [...steps, ...lastSteps(inHand, wanted, capoOn)];
}

/** The capo and the short string belong together: the spike follows the capo. */
function lastSteps(inHand: NeckSetup, wanted: NeckSetup, capoOn: boolean): RetuneStep[] {
  const to = soundingPitch(wanted, 5, 0);
  const change = to - soundingPitch(inHand, 5, 0);
  const steps: RetuneStep[] = capoOn ? [capoStep(wanted.capo)] : [];
  if (inHand.spike > 0 && wanted.spike === 0) {
    // off the spike the string falls by the spike's frets; what is left is tuned
    const left = to - pitchOf(inHand, 5);
    steps.push({ kind: 'spike-off', sentence: say.spikeOff });
    if (left !== 0) steps.push({ kind: 'short-string', to, change: left, sentence: turned(5, left, to) });
  } else if (change !== 0) {
    const spiked = wanted.spike > inHand.spike && change === wanted.spike - inHand.spike;
    const sentence = spiked ? spikedUp(change, to) : turned(5, change, to);
    steps.push({ kind: 'short-string', to, change, sentence });
  }
  return steps;
}

function unknownSteps(wanted: NeckSetup): RetuneStep[] {
  const capo: RetuneStep[] = wanted.capo > 0 ? [capoStep(wanted.capo)] : [];
  const strings = LONG_STRINGS.map((string): RetuneStep => {
    const to = pitchOf(wanted, string);
    return { kind: 'string', string, to, change: null, sentence: say.tune(string, pitchName(to)) };
  });
  const to = soundingPitch(wanted, 5, 0);
  const open = say.tune(5, pitchName(pitchOf(wanted, 5)));
  const sentence = wanted.spike > 0 ? `${open} ${spikedUp(wanted.spike, to)}` : open;
  return [...strings, ...capo, { kind: 'short-string', to, change: null, sentence }];
}

function capoStep(fret: number): RetuneStep {
  return { kind: 'capo', fret, sentence: say.capo(fret) };
}

function turned(string: StringNumber, change: number, to: number): string {
  return say.turn(string, change, pitchName(to - change), pitchName(to));
}

/** By the peg or by the spike; far up by the spike alone, which hardly tightens the string. */
function spikedUp(change: number, to: number): string {
  const sentence = change <= RAISED_AT_MOST ? say.turnOrSpike : say.spike;
  return sentence(change, pitchName(to - change), pitchName(to));
}

/** The open pitch, without capo and spike. */
function pitchOf({ tuning }: NeckSetup, string: StringNumber): number {
  return tuning[5 - string] ?? 0;
}

function cautionsFor(wanted: NeckSetup): string[] {
  return STRINGS.flatMap((string) => {
    const pitch = pitchOf(wanted, string);
    const above = pitch - (USUAL[5 - string] ?? pitch);
    if (above <= RAISED_AT_MOST) return [];
    return [say.caution(string, above, pitchName(pitch - above))];
  });
}
