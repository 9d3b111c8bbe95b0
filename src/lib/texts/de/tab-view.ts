import { plural } from '../figures';
import type { say } from '../tab-view';

export const tabView: typeof say = {
  tab: (music) => `Tabulatur: ${music}`,
  hidden: 'Tabulatur verdeckt',
  measure: (label, music) => `${label}, ${music}`,
  measureHidden: (label) => `${label}, Tabulatur verdeckt`,
  measureByMeasure: 'Tabulatur, Takt für Takt',
  breath: 'Die Atempause: ein stummer Takt',
  beats: (count) => `${count} ${plural(count, { one: 'Schlag', other: 'Schläge' })}`,
  beat: (beat) => `Schlag ${beat}`,
  beatOf: (beat, beats) => `Schlag ${beat} von ${beats}`,
};
