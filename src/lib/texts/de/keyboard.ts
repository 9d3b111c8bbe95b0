import type { say } from '../keyboard';

export const keyboard: typeof say = {
  heading: 'Tasten',
  close: 'Schließen',
  caption:
    'In der Übung. Solange ein Knopf den Fokus hat, lösen Leertaste und Eingabetaste diesen Knopf aus.',
  key: 'Taste',
  does: 'Was sie tut',
  space: 'Leertaste',
  enter: 'Eingabetaste',
  arrows: 'Pfeiltasten',
  pageUp: 'Bild auf',
  pageDown: 'Bild ab',
  gamePad: 'Gamepad',
  backspace: 'Rücktaste',
  escape: 'Esc',
  touch: 'tippen; Fußschalter senden diese Tasten',
  padTouch: 'jede Taste daran gilt als Tippen',
  pause: 'anhalten, weiterspielen',
  tempo: 'Tempo um eins höher oder tiefer',
  tab: 'mit Tabulatur oder auswendig',
  hear: 'anhören, anhalten',
  sound: 'was klingt, und wie',
  changeMark: 'die letzte Markierung ändern',
  end: 'die Übung beenden',
  keys: 'diese Tasten, in jedem Bereich',
  midiMeans:
    'Auch ein MIDI-Fußschalter oder ein anderes MIDI-Gerät geht, sobald der Browser darauf hören darf: Eine Note, ein Programmwechsel oder ein Schalter, der angeht, gilt als Tippen.',
  useMidi: 'MIDI-Fußschalter benutzen',
};
