import { inFigures } from '../figures';
import type { say } from '../sound-choices';

export const soundChoices: typeof say = {
  sound: 'Klang',
  hearIt: 'Hören',
  clickInDrill: 'Klick in der Übung',
  patterns: {
    silent: 'aus',
    beat: 'Schlag',
    'down-stroke': 'Abschlag',
    eighths: 'Achtel',
    'off-beats': 'Offbeats',
    drone: 'Bordun',
  },
  patternsSpoken: {
    silent: 'aus, bis auf den Einzähler',
    beat: 'der Schlag',
    'down-stroke': 'Puls der Abschläge',
    eighths: 'Achtel',
    'off-beats': 'Offbeats',
    drone: 'die Stelle des Borduns',
  },
  countInStays: 'Der Einzähler klickt trotzdem und gibt jedem Durchgang sein Tempo.',
  climb: 'Steigerung des Tempos',
  climbs: { steady: 'stetig', alternating: 'wechselnd', 'by hand': 'von Hand' },
  click: 'Klick',
  string: 'Saite',
  keepItSoft: 'Stell beides nur so laut, dass du folgen kannst, vor allem mit Kopfhörern.',

  tempoHeard: 'Tempo beim Hören',
  tempos: {
    goal: (tempo) => `Ziel, ${tempo}`,
    slow: (tempo) => `langsam, ${tempo}`,
  },
  temposSpoken: {
    goal: (tempo) => `im Zieltempo, ${tempo}`,
    slow: (tempo) => `langsam, mit ${tempo}`,
  },
  howOften: 'Wie oft es zu hören ist',
  times: { once: 'einmal', looped: 'immer wieder', answers: 'Ruf und Antwort' },
  answersMeaning: 'Es spielt vor und lässt dir dann die gleiche Zeit zum Antworten.',
  whatIsHeard: 'Was davon zu hören ist',
  voices: { both: 'Melodie und Bordun', melody: 'Melodie', drone: 'Bordun' },
  voicesSpoken: { both: 'Melodie und Bordun', melody: 'nur die Melodie', drone: 'nur der Bordun' },
  besideIt: 'Dazu',
  clickBeside: { off: 'nur die Saite', on: 'mit Klick' },

  silentBars: 'Stumme Takte',
  silentBarsMeaning: 'Der Klick schweigt einige Takte lang, und du spielst weiter.',
  measuresThatSound: 'Takte mit Klick',
  measuresInSilence: 'Takte ohne Klick',
  silentMeasures: (sounding, silent) =>
    `${sounding === 1 ? 'Ein Takt klingt' : `${sounding} Takte klingen`}, ${silent === 1 ? 'einer schweigt' : `${silent} schweigen`}, und wieder von vorn: Spiel weiter und hör, ob ihr zusammen ankommt.`,

  volumes: {
    off: 'aus',
    faint: 'sehr leise',
    soft: 'leise',
    medium: 'mittel',
    strong: 'kräftig',
    full: 'voll',
  },
  volumeSpoken: (word, step, steps) => `${word}, ${step} von ${steps}`,
  straight: 'gerade',
  swing: (first) => `${inFigures(first)} zu 1`,
  notMoved: 'nicht verschoben',
  later: (ms) => `${ms} ms später`,
  earlier: (ms) => `${ms} ms früher`,

  strings: { 5: '5.', 4: '4.', 3: '3.', 2: '2.', 1: '1.' },
  stringAnd: 'Saite,',
  hz: (hz) => hz.toFixed(1).replace('.', ','),
  hertz: 'Hertz',
  hear: 'hören',
  stop: 'Stopp',
};
