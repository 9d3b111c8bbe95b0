import type { say } from '../repertoire-months';
import { counted, numberWord } from './number-words';

const ofThem = (count: number): string => {
  if (count === 0) return 'keines';
  return count === 1 ? 'eines' : numberWord(count);
};

export const repertoireMonths: typeof say = {
  heading: 'Repertoire nach Monaten',
  about: 'Ein verblasstes Stück zählt als eingerostet, am Ziel oder nicht.',
  atGoal: 'im Zieltempo',
  growing: 'im Aufbau',
  rusty: 'eingerostet',
  now: (atGoal, growing, rusty) =>
    `Jetzt ${counted(atGoal, 'ein Stück', 'Stücke')} im Zieltempo, ${ofThem(growing)} im Aufbau, ${ofThem(rusty)} eingerostet.`,
  atFirst: (month, atGoal, growing, rusty) =>
    `Ende ${month} waren es ${ofThem(atGoal)}, ${ofThem(growing)} und ${ofThem(rusty)}.`,
  chart: (from, to) =>
    from === to
      ? `Säulen der Stücke im Zieltempo, im Aufbau und eingerostet: ${to}`
      : `Säulen der Stücke im Zieltempo, im Aufbau und eingerostet am Ende jedes Monats, ${from} bis ${to}`,
  table: 'Stücke nach Monaten',
  caption: 'Stücke am Ende jedes Monats; die des laufenden, wie sie heute stehen',
  month: 'Monat',
  heads: { atGoal: 'Im Zieltempo', growing: 'Im Aufbau', rusty: 'Eingerostet' },
  none: 'Noch zu wenig: Es wurde noch kein Stück gespielt.',
  failed: 'Das Diagramm konnte nicht geladen werden. Seine Zahlen stehen in der Tabelle darunter.',
};
