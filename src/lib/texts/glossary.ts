import { spoken } from './spoken';

/** Each word of the app in one line that a player would say, in the order in which they are shown. */
export const say = spoken('glossary', {
  title: 'Words · Phrasewright',
  back: '‹ Settings',
  heading: 'Words',
  words: {
    measure: {
      word: 'Measure',
      meaning: 'What stands between two bar lines. The tune is learned a measure at a time.',
    },
    measuresToLearn: {
      word: 'Measures to learn',
      meaning:
        'A tune holds fewer different measures than it has measures: equal ones share a mark and are learned once.',
    },
    seam: {
      word: 'Seam',
      meaning:
        'The join between two neighbouring measures: the last beat of one into the first beat of the next.',
    },
    part: {
      word: 'Part',
      meaning: 'A section of the tune with a letter. The form AABB plays part A twice, then part B twice.',
    },
    pickup: { word: 'Pickup', meaning: 'The notes before the first full measure.' },
    layer: {
      word: 'Layer',
      meaning:
        'One level of the tune’s arrangement: plain at first, then each layer adds one technique and changes some measures only.',
    },
    passage: {
      word: 'Passage',
      meaning: 'Anything that can be drilled: a measure, a seam, a phrase, a part, the whole tune.',
    },
    pass: {
      word: 'Pass',
      meaning: 'One time through a passage. It came out clean, stumbled, or broke down.',
    },
    drill: { word: 'Drill', meaning: 'A run of passes on one passage.' },
    sitting: { word: 'Sitting', meaning: 'One stretch of practice, from opening to closing.' },
    breath: { word: 'Breath', meaning: 'The silent measure after a pass, in which it is marked.' },
    peek: {
      word: 'Peek',
      meaning: 'To uncover the hidden tab for a moment. A pass with a peek is not from memory.',
    },
    climb: {
      word: 'Climb',
      meaning: 'The path of tempos through a drill, from a comfortable one upwards.',
    },
    settledTempo: {
      word: 'Settled tempo',
      meaning:
        'The tempo at which a passage comes out clean 17 times in 20. It is an estimate, so it comes with how far it may be off.',
    },
    goalTempo: {
      word: 'Goal tempo',
      meaning: 'Where the tune is headed. The tune’s own tempo is that of its slowest passage.',
    },
    rusty: { word: 'Rusty', meaning: 'Likely to have faded since it was last played.' },
    drone: { word: 'Drone', meaning: 'The short fifth string, struck by the thumb.' },
    rightHand: {
      word: 'Strike, brush, drop-thumb',
      meaning:
        'The right hand: one string struck down by a finger; several brushed at once; the thumb going down to a longer string.',
    },
    leftHand: {
      word: 'Hammer-on, pull-off, slide',
      meaning:
        'The left hand sounds a note without a strike: a finger comes down, plucks as it leaves, or slides along.',
    },
    book: {
      word: 'Book',
      meaning: 'Everything that you keep here: tunes, sittings, passes, settings. A backup file holds one.',
    },
  },
});
