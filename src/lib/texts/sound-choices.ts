import { inFigures } from './figures';
import { spoken } from './spoken';

/** What sounds, how and how loud: chosen in a drill and in Settings. */
export const say = spoken('soundChoices', {
  // in the drill
  sound: 'Sound',
  hearIt: 'Hear it',
  clickInDrill: 'Click in the drill',
  patterns: {
    silent: 'off',
    beat: 'the beat',
    'down-stroke': 'down-stroke',
    eighths: 'eighths',
    'off-beats': 'off-beats',
    drone: 'drone',
  },
  /** The same for the ear, with what is left out where there is little room. */
  patternsSpoken: {
    silent: 'off, but for the count-in',
    beat: 'the beat',
    'down-stroke': 'down-stroke pulse',
    eighths: 'eighths',
    'off-beats': 'off-beats',
    drone: "the drone's place",
  },
  countInStays: 'The count-in still clicks, and gives each pass its tempo.',
  climb: 'Climb of the tempo',
  climbs: { steady: 'steady', alternating: 'alternating', 'by hand': 'by hand' },
  click: 'Click',
  string: 'String',
  keepItSoft: 'Keep both just loud enough to follow, most of all in headphones.',

  // how a passage is heard
  tempoHeard: 'Tempo at which it is heard',
  tempos: {
    goal: (tempo: number) => `goal, ${tempo}`,
    slow: (tempo: number) => `slowly, ${tempo}`,
  },
  temposSpoken: {
    goal: (tempo: number) => `at the goal tempo, ${tempo}`,
    slow: (tempo: number) => `slowly, at ${tempo}`,
  },
  howOften: 'How often it is heard',
  times: { once: 'once', looped: 'over and over', answers: 'call and answer' },
  answersMeaning: 'It plays, then leaves you the same time to answer.',
  whatIsHeard: 'What is heard of it',
  voices: { both: 'melody and drone', melody: 'melody', drone: 'drone' },
  voicesSpoken: { both: 'melody and drone', melody: 'melody only', drone: 'drone only' },
  besideIt: 'Beside it',
  clickBeside: { off: 'string alone', on: 'with the click' },

  // silent bars
  silentBars: 'Silent bars',
  silentBarsMeaning: 'The click falls silent for some measures, and you keep going.',
  measuresThatSound: 'Measures that sound',
  measuresInSilence: 'Measures in silence',
  silentMeasures: (sounding: number, silent: number) =>
    `${sounding === 1 ? 'One measure sounds' : `${sounding} measures sound`}, ${silent === 1 ? 'one is' : `${silent} are`} silent, and round again: keep going, and hear whether you come out together.`,

  // sliders
  volumes: { off: 'off', faint: 'faint', soft: 'soft', medium: 'medium', strong: 'strong', full: 'full' },
  volumeSpoken: (word: string, step: number, steps: number) => `${word}, ${step} of ${steps}`,
  straight: 'straight',
  /** How long the first of two notes is to the second. */
  swing: (first: number) => `${inFigures(first)} to 1`,
  notMoved: 'not moved',
  later: (ms: number) => `${ms} ms later`,
  earlier: (ms: number) => `${ms} ms earlier`,

  // tones of the strings, by their number
  strings: { 5: '5th', 4: '4th', 3: '3rd', 2: '2nd', 1: '1st' },
  /** Said after the number. */
  stringAnd: 'string,',
  /** With one decimal. */
  hz: (hz: number) => hz.toFixed(1),
  hertz: 'hertz',
  hear: 'hear',
  stop: 'stop',
});
