import type { say } from '../progress-sentence';
import { counted, numberWord } from './number-words';

function since(gained: number | null): string {
  if (gained === null) return '';
  if (gained === 0) return ', wie vor vier Wochen';
  return `, ${Math.abs(gained)} ${gained > 0 ? 'mehr' : 'weniger'} als vor vier Wochen`;
}

const daysAway = (days: number): string => counted(days, 'einen Übetag', 'Übetage');
const numberOrOne = (count: number): string => (count === 1 ? 'einen' : numberWord(count));

export const progressSentence: typeof say = {
  nothing: 'Noch nichts gespielt.',
  atGoal: (tempo, goal) => `Die langsamste Stelle ist bei ${tempo} sauber, am Ziel von ${goal} oder darüber.`,
  onTheWay: (tempo, goal, gained) =>
    `Die langsamste Stelle ist bei ${tempo} sauber${since(gained)}; das Ziel ist ${goal}.`,
  wasAtGoal: 'Als du es zuletzt gespielt hast, war es am Ziel.',
  fewDays: (days, needed) =>
    `Für eine Vorhersage reicht es noch nicht: bisher an ${counted(days, 'einem Tag', 'Tagen')} gespielt; nötig sind ${numberWord(needed)} Tage mit diesem Stück.`,
  fewDaysSinceNew: (days, needed) =>
    `Für eine Vorhersage reicht es noch nicht: seit dem neuesten Takt oder Übergang an ${counted(days, 'einem Tag', 'Tagen')} gespielt; nötig sind ${numberWord(needed)}.`,
  noTrend: 'Für eine Vorhersage ging es zu sehr auf und ab.',
  farAway: (days) => `Geht es so weiter, ist das Ziel mehr als ${days} Übetage entfernt.`,
  levelled: 'Vorerst geht es nicht weiter hinauf.',
  levelling: (tempo) => `So, wie es jetzt geht, pendelt es sich um ${tempo} ein.`,
  about: (days) => `Geht es so weiter, ist das Ziel etwa ${daysAway(days)} entfernt.`,
  between: (days, soonest, latest) =>
    `Geht es so weiter, ist das Ziel etwa ${daysAway(days)} entfernt (${numberOrOne(soonest)} bis ${numberOrOne(latest)}).`,
  atLeast: (days) => `Geht es so weiter, ist das Ziel mindestens ${daysAway(days)} entfernt.`,
};
