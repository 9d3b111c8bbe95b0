import { spoken } from './spoken';

/** Tab and beat as drawings, for the ear. */
export const say = spoken('tabView', {
  tab: (music: string) => `Tab: ${music}`,
  hidden: 'Tab hidden',
  /** By the measure's label on the board: `A2`. */
  measure: (label: string, music: string) => `${label}, ${music}`,
  measureHidden: (label: string) => `${label}, tab hidden`,
  measureByMeasure: 'Tab, measure by measure',
  breath: 'The breath: a silent measure',
  beats: (count: number) => `${count} beats`,
  beat: (beat: number) => `Beat ${beat}`,
  beatOf: (beat: number, beats: number) => `Beat ${beat} of ${beats}`,
});
