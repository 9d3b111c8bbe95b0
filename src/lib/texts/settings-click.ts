import { spoken } from './spoken';

/** What can be chosen for the click, for the plucked string and for the beat on the screen. */
export const say = spoken('settingsClick', {
  pattern: 'Pattern',
  patterns: {
    beat: 'the beat',
    'down-stroke': 'down-stroke pulse',
    eighths: 'eighths',
    'off-beats': 'off-beats',
    drone: "the drone's place",
    silent: 'silent',
  },
  patternMeans: {
    beat: 'Every beat, the first of the measure stronger.',
    'down-stroke': 'Long, short-short: the pulse of the right hand.',
    eighths: 'Every eighth, the beats stronger.',
    'off-beats': 'Only between the beats: the beat is yours to keep.',
    drone: 'Only where the thumb answers on the short string.',
    silent: 'The count-in sounds, then the pass is silent: your own pulse carries it.',
  },
  swing: 'Swing',
  sound: 'Sound of the click',
  sounds: { wood: 'wood', bell: 'bell', rim: 'rim' },
  volume: 'Volume',
  volumes: { click: 'Click', string: 'String' },
  hear: { click: 'Hear the click', string: 'Hear the string' },
  stop: { click: 'Stop the click', string: 'Stop the string' },
  ears: 'Keep the click and your headphones at a level that is safe for your ears, and give them a rest now and then.',
  counted: 'Counted aloud',
  countedMeans: 'The count-in is spoken, by a voice that is made here and not recorded.',

  nudge: 'The beat on the screen',
  tryPulse: 'Try it',
  stopPulse: 'Stop the pulse',
  nudgeMeans:
    'Headphones without a wire bring the click late. Let the pulse go, and move the slider until block and click come together: later when the block runs ahead of the sound, earlier when it runs behind.',
});
