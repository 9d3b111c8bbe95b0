import { spoken } from './spoken';

/** What the reader of MIDI files says: refusals as sentences, the rest behind a place. */
export const say = spoken('readingMidi', {
  noMidi: 'This is not a MIDI file. Nothing was read.',
  tooShort: 'This MIDI file breaks off in its first bytes. Nothing was read.',
  filmFrames: 'This MIDI file counts film frames, not beats, so it has no measures. Nothing was read.',
  noBeat: 'This MIDI file has no length for a beat. Nothing was read.',
  noNotes: 'There are no notes in this MIDI file. Nothing was read.',
  tooManyVoices: (found: number, most: number) =>
    `The file has ${found} voices; those after the first ${most} are left out.`,

  breaksOff: 'the file breaks off here',
  trackTooLong: 'this track goes on for too long; the rest is left out',
  noEvent: 'a track holds a byte that is no event; the rest of the track is left out',
  noMeter: (meter: string) => `the file gives no meter; read in ${meter}`,
  tooManyMeasures: (most: number) => `more than ${most} measures; what follows is left out`,
  tooManyNotes: (most: number) => `more than ${most} notes; the rest is left out`,
  silentMeasures: (count: number) =>
    `${count === 1 ? 'the first measure is silent' : `the first ${count} measures are silent`}; left out`,
  readAsPickup: 'the first measure begins with silence; what sounds in it is read as a pickup',
  moved: (count: number, percent: number) =>
    count === 1
      ? `one note was moved to the nearest sixteenth or triplet, by ${percent} % of a quarter note`
      : `${count} notes were moved to the nearest sixteenth or triplet, the furthest by ${percent} % of a quarter note`,
  tempoChanges: (least: number, greatest: number, kept: number) =>
    `the tempo changes, between ${least} and ${greatest} beats a minute; ${kept}, that of the first note, is kept`,

  track: (number: number) => `track ${number}`,
  channel: (track: string, number: number) => `${track}, channel ${number}`,
});
