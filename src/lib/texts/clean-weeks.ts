import { spoken } from './spoken';

/** Clean passes of a tune, week by week. `share`: in so many passes of `all`. */
export const say = spoken('cleanWeeks', {
  heading: 'Clean passes in 20',
  line: (line: number, all: number) => `The line is ${line} in ${all}: settled. Past it, push.`,
  week: (day: string, share: string, all: number) => `Week of ${day}: ${share} in ${all} clean`,
  weekOfRest: (day: string) => `Week of ${day}: no passes`,
  /** What is in the table, for the ear. */
  table: 'clean passes by week',
  caption: 'Clean passes of this tune by week',
  weekOf: 'Week of',
  passes: 'Passes',
  clean: 'Clean',
  inAll: (all: number) => `In ${all}`,
  none: 'Not enough yet: no pass of this tune has been marked.',
});
