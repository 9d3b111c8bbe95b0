import { capital, plural } from './figures';
import { spoken } from './spoken';

/** The drill while it runs, read at a metre and in a hurry; the large word and the marks have some twelve letters at most. */
export const say = spoken('drillScreen', {
  title: 'Drill · Phrasewright',

  /** What a pass was marked as. */
  marks: { clean: 'clean', stumbled: 'stumbled', 'broke down': 'broke down', unmarked: 'unmarked' },

  // the one large word
  yourTurn: 'your turn',
  listen: 'listen',
  look: 'look',
  ready: 'ready',
  phases: { paused: 'paused', 'count-in': 'count-in', done: 'done' },
  pass: (pass: number) => `pass ${pass}`,
  passes: (first: number, last: number) => `passes ${first}–${last}`,
  cleanOnes: (clean: number) => (clean === 0 ? 'none clean' : `${clean} clean`),

  // the hint under it
  begin: 'Touch here, and the count-in begins.',
  lookAt: {
    tab: 'Look at the tab. Touch here, and the count-in begins.',
    melody: 'Look at the melody. Touch here, and the count-in begins.',
  },
  paused: 'Every marked pass is kept. Touch here to go on with a count-in.',
  moved: (why: string) => `${capital(why)}.`,
  passHint: 'Touch only if it breaks down. After the pass, one touch for clean, two for stumbled.',
  handfulHint: 'Four passes run on. After the fourth, one touch for each that was clean.',
  markHandful: 'One touch for each of the four that came out clean.',
  nextHandful: (tempo: number) => `The next four come in at ${tempo}.`,
  leftIsClean: 'Leave it: clean. Two touches: stumbled. Three: broke down.',
  leftIsUnmarked: 'One touch: clean. Two: stumbled. Three: broke down. Left alone, it does not count.',
  nextWaits: (tempo: number) => `The next pass comes in at ${tempo}.`,
  nextComes: (pass: number, tempo: number) => `Leave it, and pass ${pass} comes in at ${tempo}.`,
  touchAgain: (mark: string) => `Touch again: ${mark}.`,
  heardAtGoal: (tempo: number) => `At ${tempo}, the goal.`,
  heardSlowly: (tempo: number) => `Slowly, at ${tempo}.`,
  toBegin: 'Touch here to begin the drill.',
  toGoOn: 'Touch here to go on with the drill.',

  /** `7 passes · 6 clean · 4 from memory`. */
  count: (passes: number, clean: number, fromMemory: number) =>
    `${passes} ${plural(passes, { one: 'pass', other: 'passes' })} · ${clean} clean · ${fromMemory} from memory`,

  // around it
  end: 'End',
  timeLeft: 'left',
  /** Said between the minutes and what the button does. */
  timeLeftAnd: 'left,',
  goOn: 'Go on',
  pause: 'Pause',
  fromMemory: 'from memory',
  inView: { tab: 'tab in view', melody: 'melody in view' },
  hearIt: 'Hear it',
  stop: 'Stop',
  sound: 'Sound',
  peek: 'hold to peek',
  peekAt: { tab: 'Hold to peek at the tab', melody: 'Hold to peek at the melody' },
  slower: 'One beat a minute slower',
  faster: 'One beat a minute faster',
  beginAt: 'begin at',
  goOnAt: 'go on at',
  why: 'Why this tempo',
  /** Followed by the tuning and a full stop. */
  tuneIsIn: 'This tune is in',
  tuneUp: 'Tune up',

  // the climb, the newest pass last
  toward: (tempo: number) => `toward ${tempo}`,
  climb: (toward: number, passes: readonly { tempo: number; mark: string }[], now: number) =>
    `Climb toward ${toward}: ${[...passes.map(({ tempo, mark }) => `${tempo} ${mark}`), `now ${now}`].join(', ')}`,

  // the passes so far
  passesSoFar: 'Passes so far',
  noneYet: 'None yet.',
  changeMark: (pass: number, mark: string) => `Pass ${pass}, ${mark}: change the mark`,

  // what goes wrong
  nothingLost: 'Nothing was lost. Touch below to go on.',
  lastNotSaved: (why: string) => `The last pass is not saved: ${why}`,
  marksWait: (count: number) =>
    `${count} ${plural(count, { one: 'mark waits', other: 'marks wait' })} here until then.`,
  goesOnWithout: 'The drill goes on without it.',
  openElsewhere: 'A drill is open in another tab or window. End it there, then come back here.',
  editedMeanwhile: 'The tune was edited meanwhile: the drill goes on with what it is now.',
  backToToday: '‹ Today',
  noPassage: 'No such passage in this book.',
  noPassageWhy: 'It may have been edited since. Choose another on the tune’s board.',
  passageGone: 'This passage is no longer in the tune.',
  passageGoneWhy: 'The tune was edited since. Choose another on its board; the passes are still in the log.',

  /** Why it ended. */
  youEnded: 'You ended it.',
});
