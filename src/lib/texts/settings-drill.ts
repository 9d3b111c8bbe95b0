import { numberWord } from './number-words';
import { spoken } from './spoken';

/** What can be chosen for the drill. */
export const say = spoken('settingsDrill', {
  breath: 'Breath after a pass',
  breaths: { '1': 'one measure', '2': 'two', '4': 'four', wait: 'wait for me' },
  /** The same words where nobody sees them side by side. */
  breathsSpoken: { '1': 'one measure', '2': 'two measures', '4': 'four measures', wait: 'wait for me' },
  breathWaits: 'The click waits until you have marked the pass.',
  breathMeans: 'The silence in which you mark the pass.',
  countIn: 'Count-in',
  countIns: { '1': 'one measure', '2': 'two measures' },
  climb: 'Climb of the tempo',
  climbs: { steady: 'steady', alternating: 'alternating', 'by hand': 'by hand' },
  climbMeans: {
    steady: 'Up a little after clean passes, down a little after a miss.',
    alternating: 'A comfortable pass, then one near the goal, and back.',
    'by hand': 'The tempo moves only when you move it.',
  },
  climbIsThumb: 'No pattern of tempos has been shown best; this is a rule of thumb.',
  handful: 'A handful of four',
  handfulMeans: (passes: number) =>
    `In short passages ${numberWord(passes)} passes run on, with one breath after the last. Your hands leave the strings a quarter as often.`,
  unmarked: 'An unmarked pass counts as clean',
  unmarkedMeans: 'On: touch only for what went wrong. Off: a pass that you leave unmarked does not count.',
  bands: 'Three bands',
  bandsMean: 'In the breath the surface splits into clean, stumbled and broke down: one touch, one word.',
  hideTab: 'Hide the tab after a look',
  hideTabMeans: 'Once a passage is no longer new, its tab is covered when the count-in begins. Hold to peek.',
});
