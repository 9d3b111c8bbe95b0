import { spoken } from './spoken';

/** The keys of the app, and the pedals and pads that stand for them. */
export const say = spoken('keyboard', {
  heading: 'Keys',
  close: 'Close',
  caption: 'In the drill. While a button has the focus, Space and Enter work that button.',
  key: 'Key',
  does: 'What it does',
  space: 'Space',
  enter: 'Enter',
  arrows: 'arrows',
  pageUp: 'Page Up',
  pageDown: 'Page Down',
  gamePad: 'Game pad',
  backspace: 'Backspace',
  escape: 'Esc',
  touch: 'a touch; foot pedals send these',
  padTouch: 'any button is a touch',
  pause: 'pause, go on',
  tempo: 'tempo up or down by one',
  tab: 'tab in view, or from memory',
  hear: 'hear it, stop',
  sound: 'what sounds, and how',
  changeMark: 'change the last mark',
  end: 'end the drill',
  keys: 'these keys, on every screen',
  midiMeans:
    'A MIDI pedal or controller works too, once the browser has been allowed to hear it: a note, a program or a switch that goes on is a touch.',
  useMidi: 'Use a MIDI pedal',
});
