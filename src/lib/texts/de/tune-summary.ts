import { capital } from '../figures';
import type { RustId } from '../common';
import type { say } from '../tune-summary';
import { common } from './common';
import { numberWord } from './number-words';

const fading = (rust: RustId): string => (rust === 'fresh' ? '' : `, ${common.rusts[rust]}`);
/** Of masculine things, as all of these are. */
const someOf = (count: number): string => {
  if (count === 0) return 'keiner';
  return count === 1 ? 'einer' : numberWord(count);
};

export const tuneSummary: typeof say = {
  noMeasures: 'Noch keine Takte',
  notBegun: 'Noch nicht begonnen',
  measures: (settled, all, rust) =>
    all === 1
      ? `Der eine Takt noch nicht gefestigt${fading(rust)}`
      : `${capital(someOf(settled))} von ${numberWord(all)} Takten gefestigt${fading(rust)}`,
  seams: (open, all, rust) =>
    all === 1
      ? `Jeder Takt gefestigt, der eine Übergang offen${fading(rust)}`
      : `Jeder Takt gefestigt, ${someOf(open)} von ${numberWord(all)} Übergängen offen${fading(rust)}`,
  parts: (joined, all, rust) =>
    all === 1
      ? `Der eine Teil noch nicht zusammengefügt${fading(rust)}`
      : `${capital(someOf(joined))} von ${numberWord(all)} Teilen zusammengefügt${fading(rust)}`,
  wholeNext: (rust) => `Teile zusammengefügt, als Nächstes das Ganze${fading(rust)}`,
  atGoal: (rust) => `Am Ziel${fading(rust)}`,
  holds: (tempo, rust) => `Das ganze Stück hält bei ${tempo}${fading(rust)}`,
};
