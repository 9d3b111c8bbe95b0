import { spoken } from './spoken';

/** Why a passage, and why at this tempo: the screen, its picture and its table. */
export const say = spoken('why', {
  title: 'Why this, why this tempo · Phrasewright',
  heading: 'Why this, why this tempo',
  back: '‹ Back',
  noSuchPassage: 'No such passage in this book.',
  perhapsEdited: 'It may have been edited since. Choose another on the tune’s board.',
  /** After the tempo. */
  comesOut: 'comes out clean 17 times in 20',
  likely: (low: number, high: number, goal: number) => `likely between ${low} and ${high}, goal ${goal}`,
  /** After the tempo. */
  toBeginWith: 'to begin with: not played yet',
  goal: (goal: number) => `goal ${goal}`,
  whyThis: 'Why this',
  whyThisTempo: 'Why this tempo',
  drill: 'Drill',
  from: (tempo: number) => `from ${tempo}`,
  passesBehind: 'The passes behind it',
  howItMoved: 'How it moved',

  goalLine: (goal: number) => `goal line, ${goal}`,
  outcomes: {
    clean: 'clean',
    stumbled: 'stumbled',
    'broke down': 'broke down',
    somewhere: 'a miss somewhere',
  },
  likelyRange: 'the likely range',

  tableOf: 'passes and estimates',
  newestPasses: 'The newest passes',
  tempo: 'Tempo',
  outcomeHere: 'Outcome here',
  played: 'Played',
  alone: 'alone',
  estimates: 'The estimate at the end of each day',
  day: 'Day',
  likelyBetween: 'Likely between',
  between: (low: number, high: number) => `${low} and ${high}`,
  clean: 'Clean',
  cleanOf: (clean: number, passes: number) => `${clean} of ${passes}`,
});
