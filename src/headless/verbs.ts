import type { Book } from '../lib/core/book/book';
import { readSettings } from '../lib/core/book/settings';
import { explainedSentences, explainPassage } from '../lib/core/plan/explain';
import { makePlan } from '../lib/core/plan/make-plan';
import { foldStandings, type Standings } from '../lib/core/practice/standings';
import { tuneSummaries } from '../lib/core/progress/tune-summary';
import type { Moment } from '../lib/core/time/moment';
import { drilledToday } from '../lib/core/plan/wishes';
import { passageFromKey, type Passage } from '../lib/core/tune/passage';
import { passageLabels, passageName } from '../lib/core/tune/passage-name';
import { passageStretches } from '../lib/core/tune/places';
import { readBook, readMinutes, readMoment, readTuning } from './arguments';
import { click } from './click';
import { figures } from './figures';
import { importFile } from './import';
import { play } from './play';
import { Trouble } from './trouble';

export interface Options {
  book?: string | undefined;
  now?: string | undefined;
  minutes?: string | undefined;
  tuning?: string | undefined;
  passage?: string | undefined;
  meter?: string | undefined;
  as?: string | undefined;
  tempo?: string | undefined;
  'to-tempo'?: string | undefined;
  step?: string | undefined;
  beats?: string | undefined;
  pattern?: string | undefined;
  swing?: string | undefined;
  'count-in'?: string | undefined;
  spoken?: boolean | undefined;
  sound?: string | undefined;
  rate?: string | undefined;
  out?: string | undefined;
  tune?: string | undefined;
  layer?: string | undefined;
  from?: string | undefined;
  to?: string | undefined;
  times?: string | undefined;
  answers?: boolean | undefined;
  click?: boolean | undefined;
  skip?: string[] | undefined;
  pin?: string[] | undefined;
}

/** What a verb prints, as plain data. Throws a Trouble for bad input. */
export type Verb = (options: Options, files: readonly string[]) => unknown;

function foldAt(book: Book, now: Moment): Standings {
  const { dayStartsAtHour } = readSettings(book.settings);
  return foldStandings({ tunes: book.tunes, sittings: book.sittings, now, dayStartsAtHour });
}

const plan: Verb = ({ book: file, minutes, now: iso, tuning, skip = [], pin = [] }) => {
  const book = readBook(file);
  const now = readMoment(iso);
  for (const key of skip) readPassage('skip', key);
  for (const key of pin) readPassage('pin', key);
  const { dayStartsAtHour } = readSettings(book.settings);
  const request = {
    ...{ now, minutes: readMinutes(minutes), tuning: readTuning(tuning), hands: 'fresh' as const },
    ...{ skip, pinned: pin },
    drilled: drilledToday(book.sittings, now, dayStartsAtHour).map(({ key }) => key),
  };
  return makePlan({ tunes: book.tunes, standings: foldAt(book, now), request });
};

function readPassage(option: string, key: string | undefined): Passage {
  const passage = passageFromKey(key ?? '');
  if (!passage) throw new Trouble(`Name a passage by its key with --${option} KEY: saw ${key ?? 'nothing'}.`);
  return passage;
}

const standings: Verb = ({ book: file, now: iso }) => {
  const book = readBook(file);
  const folded = foldAt(book, readMoment(iso));
  const byId = new Map(book.tunes.map((tune) => [tune.id, tune]));
  const rows = [...folded.toMap().values()]
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .map((standing) => {
      const tune = byId.get(standing.passage.tuneId);
      const found = tune && tune.deletedAt === null && passageStretches(tune, standing.passage).length > 0;
      if (!found) return { ...standing, title: tune?.title ?? null, name: null, measures: [] };
      const { passage } = standing;
      return {
        ...standing,
        ...{ title: tune.title, name: passageName(tune, passage), measures: passageLabels(tune, passage) },
      };
    });
  return { tunes: tuneSummaries(book.tunes, folded), standings: rows };
};

const explain: Verb = ({ book: file, passage: key, now: iso }) => {
  const book = readBook(file);
  const passage = readPassage('passage', key);
  const { tunes, sittings } = book;
  const told = explainPassage({ tunes, sittings, standings: foldAt(book, readMoment(iso)), passage });
  return { passage, ...told, sentences: explainedSentences(told) };
};

export const VERBS: Readonly<Record<string, Verb>> = {
  plan,
  standings,
  explain,
  import: importFile,
  click,
  play,
  figures,
};
