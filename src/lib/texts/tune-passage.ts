import { spoken } from './spoken';

/** The passage chosen on the board of a tune: what it stands at, and what can be done with it. */
export const say = spoken('tunePassage', {
  passage: 'Chosen passage',
  notPlayed: 'Not played yet',
  /** How well it is remembered. */
  /** @param rust where it is not fresh */
  cleanAt: (tempo: number, isSlowest: boolean, rust: string | null) =>
    `Clean at ${tempo}${isSlowest ? ', slowest' : ''}${rust === null ? '' : `, ${rust}`}`,
  why: 'Why this, why this tempo',
  how: 'How it sounds',
  howDone: 'Done',
  passes: 'Passes',
  passesOn: (passes: number, days: number) => `${passes} on ${days} ${days === 1 ? 'day' : 'days'}`,
  cleanOfLast: (count: number) => `Clean, last ${count}`,
  likely: 'Likely between',
  likelyTempos: (low: number, high: number) => `${low} and ${high}`,
  memory: 'Memory',
  noMemory: 'not played yet',
  hear: 'Hear it',
  stop: 'Stop',
  upTo: 'Up to …',
  touchEnd: 'Touch its end',
  drill: 'Drill',
  from: (tempo: number) => `from ${tempo}`,
  drillAnyway: 'Not open yet: drill it anyway',
});
