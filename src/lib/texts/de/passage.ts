import type { say } from '../passage';

export const passage: typeof say = {
  tune: 'Das ganze Stück',
  part: (part) => `Teil ${part}`,
  gone: 'Eine Passage, die es im Stück nicht mehr gibt',
  measure: (measure, part) => `Takt ${measure}, Teil ${part}`,
  measures: (first, last, part) => `Takte ${first}–${last}, Teil ${part}`,
  seam: (first, last, part) => `Übergang ${first}–${last}, Teil ${part}`,
  seamAround: (last, part) => `Übergang ${last}–1, Teil ${part} noch einmal`,
  seamBetween: (first, last) => `Übergang ${first}–${last}`,
};
