import { spoken } from './spoken';

/** What a device or a pedal cannot give, and what a drill and "Hear it" say when they do not begin. */
export const say = spoken('soundDevice', {
  weakClick:
    'This browser cannot keep the click apart from the page: a click may drop out while the page is busy.',
  noClick: 'This browser cannot play the click. You can still drill without it.',
  soundOff: 'The browser keeps the sound off. Touch the screen once, then start the click again.',
  notLoaded: 'The click could not be loaded. Open the page again, or drill without the click.',
  noSound: 'This device has no sound to give at the moment. You can still drill without the click.',

  drillRefused: (reason: string) => `The drill could not begin: ${reason}`,
  passageGone: 'This passage is no longer in the tune.',
  /** What a lock screen shows of a reference tone. */
  tuningUp: (tone: string) => `Tuning up: ${tone}`,

  noMidi: 'This browser has no MIDI. A pedal that sends keys works all the same.',
  nameless: 'a device without a name',
  noMidiDevice: 'Allowed, but no MIDI device is plugged in. Plug it in, and it works at the next drill.',
  midiWorks: (devices: string) => `Each press is a touch now: ${devices}.`,
  midiRefused: 'The browser does not allow MIDI here. Allow it in the site’s settings, then try again.',
});
