import { inFigures } from '../figures';
import type { say } from '../tune-draft';

export const tuneDraft: typeof say = {
  noTitle: 'Gib dem Stück einen Titel.',
  titleTooLong: (most) => `Der Titel darf höchstens ${inFigures(most)} Zeichen haben.`,
  noForm: (most) =>
    `Schreib die Form so, wie die Teile gespielt werden, in Großbuchstaben: AABB (bis zu ${most}).`,
  noMeasures: (part) => `Die Form spielt Teil ${part}, der keine Takte hat.`,
  notPlayed: (part) => `Teil ${part} hat Takte, aber die Form spielt ihn nie.`,
  measures: (part, most) => `Teil ${part} braucht 1 bis ${inFigures(most)} Takte.`,
  goal: (least, most) => `Wähle ein Zieltempo zwischen ${least} und ${most} Schlägen in der Minute.`,
  pickup: (beats) => `Ein Auftakt ist kürzer als ein Takt: unter ${inFigures(beats)} Schlägen.`,

  titleInListTooLong: (start, letters, most) =>
    `„${start}…“ hat ${inFigures(letters)} Zeichen: Ein Titel hat höchstens ${most}. Ein Titel je Zeile.`,
  tooManyTitles: (found, most) =>
    `Das sind ${inFigures(found)} Titel. Höchstens ${most} werden auf einmal hinzugefügt.`,
};
