import { listed } from '../figures';
import type { say } from '../near-same';
import { ordinalWord } from './number-words';
import { beatWord, stopWords } from './stops';
import { techniques } from './techniques';

const NAMES: Record<string, string> = techniques.names;

/** `erste Saite, zweiter Bund`. */
function placeWords(string: number, fret: number): string {
  const name = `${ordinalWord(string)} Saite`;
  return fret === 0 ? `leere ${name}` : `${name}, ${stopWords(fret)}`;
}

export const nearSame: typeof say = {
  offTheBoard: 'ein weggenommener Takt',
  sounds: (second, first) => `${second} klingt genau wie ${first} und wird für sich gelernt.`,
  differs: (second, first, where, told) =>
    `${second} ist wie ${first}, nur ${where} anders${told.length > 0 ? `: ${told.join('; ')}` : ''}.`,
  within: { 'first beat': 'im ersten Schlag', 'last beat': 'im letzten Schlag' },
  inBeats: (beats) =>
    `${beats.length === 1 ? 'in Schlag' : 'in den Schlägen'} ${listed(beats.map(beatWord))}`,

  drone: 'Bordun',
  strike: placeWords,
  technique: (technique, string, fret) =>
    technique === 'tie'
      ? `${placeWords(string, fret)}, weiterklingend`
      : `${NAMES[technique] ?? technique}, ${placeWords(string, fret)}`,
  together: (sounds) => sounds.join(', dazu '),
  otherFret: (string, now, before) => `hier ${placeWords(string, now)} – dort ${stopWords(before)}`,
  otherwise: (sound) => `${sound}, anders gehalten oder gegriffen`,
  change: (now, before) => `hier ${now || 'nichts'} – dort ${before || 'nichts'}`,
};
