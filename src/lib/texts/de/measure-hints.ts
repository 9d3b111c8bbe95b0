import type { say } from '../measure-hints';
import { ordinalWord } from './number-words';

export const measureHints: typeof say = {
  pastTheNeck: (string, fret, last) =>
    `Die ${ordinalWord(string)} Saite hat auf den meisten Hälsen keinen Bund ${fret}: Hier endet sie bei ${last}.`,
  hammerOn: (string, fret) =>
    `Der Hammer-on auf Bund ${fret} der ${ordinalWord(string, 'n')} Saite kommt nicht von einem tieferen Bund.`,
  pullOff: (string, fret) =>
    `Der Pull-off auf Bund ${fret} der ${ordinalWord(string, 'n')} Saite kommt nicht von einem höheren Bund.`,
  tie: (string) =>
    `Vor dem Haltebogen auf der ${ordinalWord(string, 'n')} Saite steht keine Note auf demselben Bund.`,
  stretch: (beat, low, high) => `Schlag ${beat} geht von Bund ${low} bis Bund ${high}: eine weite Spreizung.`,
};
