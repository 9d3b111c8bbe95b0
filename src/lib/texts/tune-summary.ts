import { say as sayCommon, type RustId } from './common';
import { capital } from './figures';
import { numberWord } from './number-words';
import { spoken } from './spoken';

const fading = (rust: RustId): string => (rust === 'fresh' ? '' : `, ${sayCommon.rusts[rust]}`);
const someOf = (count: number): string => capital(count === 0 ? 'none' : numberWord(count));

/** Where a tune stands, in a few words. */
export const say = spoken('tuneSummary', {
  noMeasures: 'No measures yet',
  notBegun: 'Not begun',
  measures: (settled: number, all: number, rust: RustId) =>
    `${someOf(settled)} of ${numberWord(all)} measures settled${fading(rust)}`,
  /** All measures are settled. */
  seams: (open: number, all: number, rust: RustId) =>
    `Every measure settled, ${numberWord(open)} of ${numberWord(all)} seams open${fading(rust)}`,
  /** All measures and seams are settled. */
  parts: (joined: number, all: number, rust: RustId) =>
    `${someOf(joined)} of ${numberWord(all)} parts joined${fading(rust)}`,
  wholeNext: (rust: RustId) => `Parts joined, the whole is next${fading(rust)}`,
  atGoal: (rust: RustId) => `At goal${fading(rust)}`,
  holds: (tempo: number, rust: RustId) => `Whole tune holds at ${tempo}${fading(rust)}`,
});
