import { listed } from './figures';
import { numberWord } from './number-words';
import { spoken } from './spoken';

const all = (count: number): string => (count === 2 ? 'both' : `all ${numberWord(count)}`);
const left = (keeper: string | null): string =>
  keeper === null
    ? 'those so far are kept, and come back when it is written so again'
    : `those so far stay with ${keeper}`;

/** A measure that is written: its grid, its tools, and what there is to say of it. Measures by their labels: `A3`. */
export const say = spoken('editor', {
  title: 'Write a measure · Phrasewright',
  noMeasure: 'No such measure',
  notInBook: 'This measure is not in your book. It may have been taken off the board.',
  tunes: 'Tunes',
  measure: (label: string) => `Measure ${label}`,
  /** @param beats with their noun, as `beats` says them */
  grid: (label: string, beats: string) => `Measure ${label}, ${beats}`,
  /** @param figure the count as it is printed: `2½` */
  beats: (count: number, figure: string) => `${figure} ${count > 1 ? 'beats' : 'beat'}`,

  strings: {
    1: 'first string',
    2: 'second string',
    3: 'third string',
    4: 'fourth string',
    5: 'short string',
  },
  noNote: 'nothing',
  note: (technique: string, fret: number) => `${technique} ${fret === 0 ? 'open' : `fret ${fret}`}`,
  finger: (finger: number) => `finger ${finger}`,

  tools: 'This measure',
  save: 'Save',
  undo: 'Undo',
  redo: 'Redo',
  rest: 'Rest',
  fill: 'Fill',
  hear: 'Hear it',
  stop: 'Stop',

  saved: 'Saved.',
  savedAnd: (passes: string) => `Saved. ${passes}`,
  keepOpen: 'Keep this page open. Change it, or undo, and save again.',
  keptHere: 'What you wrote is kept on this device. Change it, or undo, and save again.',
  notKept: 'What you write is not kept until you save it.',
  takenUp: 'Taken up where you left it. Undo goes back to what the book holds.',
  aside: 'This measure was written elsewhere too. What you wrote is set aside.',
  writeHere: 'Write it here',
  letGo: 'Let it go',

  ways: 'Measures',
  before: (label: string) => `Measure before, ${label}`,
  onTo: (label: string) => `On to ${label}`,
  saveOnTo: (label: string) => `Save, on to ${label}`,
  next: 'Next measure',
  toTune: 'To the tune',
  saveToTune: 'Save, to the tune',
  last: 'Last measure',

  shared: 'Shared measure',
  sharing: (labels: readonly string[]) => `${listed(labels)} share this measure.`,
  changeAll: (count: number) => `Change ${all(count)}`,
  changeOnly: (label: string) => `Only ${label}`,
  layersBelowKeep: 'The layers below keep what they have, and what was played on it stays there.',
  passesFollow: (count: number, label: string) =>
    `Change ${all(count)}, and what you played on it stays with it. Change only ${label}, and it stays with the others.`,
  goOn: 'Go on writing',
  leave: 'Leave, and decide later',

  otherLength: (label: string, isLonger: boolean) =>
    `What you played on ${label} stays with it, though it is ${isLonger ? 'longer' : 'shorter'} now.`,
  /** @param keeper who shows what was played so far: labels, or a layer; `null` for nobody */
  begins: (label: string, keeper: string | null) => `${label} begins without passes; ${left(keeper)}.`,
  /** @param by who shows it already; `null` for nobody */
  takesOver: (label: string, by: string | null, keeper: string | null) =>
    `${label} takes over the passes of ${by ?? 'the measure it becomes again'}; ${left(keeper)}.`,
  layer: (name: string) => `the ${name} layer`,

  allOnNeck: 'Every note of the melody is on the neck.',
  outOfReach: (tuning: string, pitches: readonly string[]) =>
    `Not in reach in ${tuning}: ${listed(pitches)}. Write them where you want them.`,
});
