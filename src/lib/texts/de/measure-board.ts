import { plural } from '../figures';
import type { say } from '../measure-board';

export const measureBoard: typeof say = {
  crooked: (measure, beats) => `${measure} · ${beats}`,
  over: (measure) => `${measure} extra`,

  tile: (part, heading, says) => `Teil ${part}, Takt ${heading}: ${says.join(', ')}`,
  settled: (tempo, goal, low, high) => `${tempo} von ${goal}, wohl zwischen ${low} und ${high}`,
  notPlayed: 'noch nicht gespielt',
  mark: (letters) => `Zeichen ${letters}`,
  changed: 'in dieser Fassung geändert',
  seam: (first, last, part) => `Übergang ${first} zu ${last}, Teil ${part}`,
  seamBetween: (first, last) => `Übergang ${first} zu ${last}`,
  seamSettled: (seam, tempo, goal) => `${seam}: ${tempo} von ${goal}`,
  seamOpen: (seam) => `${seam}: offen, noch nicht gespielt`,
  seamClosed: (seam) => `${seam}: öffnet sich, wenn beide Takte gefestigt sind`,

  partSize: (measures, figures) =>
    `${measures} ${plural(measures, { one: 'Takt', other: 'Takte' })}, ${figures} zu lernen`,
  wholePart: 'Ganzer Teil',
  goal: (tempo) => `Ziel ${tempo}`,
  fromOnTo: (label) => `Von ${label} weiter zu`,
  open: 'offen',

  goalLine: (tempo) => `Ziellinie, ${tempo}`,
  sameMark: 'gleiches Zeichen, gleiche Figur',
  rungs: 'Sprossen: wie weit ein Übergang hält',
  grain: 'Maserung: eingerostet',
  inlay: 'Einlage: in dieser Fassung geändert',
};
