import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { writeAbc } from '../lib/core/notation/abc/write-abc';
import { writeMidi } from '../lib/core/notation/midi/write-midi';
import { writeMusicXml } from '../lib/core/notation/musicxml/write-musicxml';
import type { EntryWithScore, NotationFile } from '../lib/core/notation/notation-file';
import { playedOut } from '../lib/core/notation/play-order';
import { readNotationFile } from '../lib/core/notation/read-file';
import { draftOfReading, type ReadingDefaults } from '../lib/core/notation/reading-draft';
import type { Score } from '../lib/core/notation/score';
import { scoreOfTune } from '../lib/core/notation/score-of-tune';
import { writeTypedTab } from '../lib/core/notation/write-typed-tab';
import { METERS, type Meter } from '../lib/core/rhythm/meter';
import { makeTune, type TuneDraft } from '../lib/core/tune/make-tune';
import { firstLayer } from '../lib/core/tune/places';
import type { Tune } from '../lib/core/tune/tune';
import { cannotRead, readTuning } from './arguments';
import { Trouble } from './trouble';
import type { Verb } from './verbs';

const FORMATS = {
  json: '.json',
  abc: '.abc',
  musicxml: '.musicxml',
  tab: '.tab',
  midi: '.mid',
} as const;
type Format = keyof typeof FORMATS;

const DEFAULTS: Omit<ReadingDefaults, 'meter'> = {
  title: 'Untitled',
  tuning: [67, 50, 55, 59, 62],
  goalTempo: 80,
};

/**
 * Reads a file of notation: all its tunes and what was not read, or with `--out` one file a tune, named by its number in
 * the source or its place there. What is written in a format is the melody as it is played, repeats played out. Typed tab
 * is read in `--meter`, else in the meter that it says itself, else in 2/4.
 */
export const importFile: Verb = ({ meter: named, as = 'json', tuning, out }, [file, ...more]) => {
  if (file === undefined || more.length > 0) throw new Trouble('Name one file to import.');
  const format = readOneOf<Format>('as', as, Object.keys(FORMATS) as Format[]);
  const source = openSource(file);
  const meter = readOneOf<Meter>('meter', named ?? '2/4', METERS);
  const options = { meter, isMeterChosen: named !== undefined, voice: 0 };
  const wanted = readTuning(tuning);
  const tunes = source.entries.map(({ number, title }, index) => {
    const { reading, voices, score } = source.read(index, options);
    const tuned = wanted ? { ...reading, tuning: wanted } : reading;
    return { number, title: title ?? reading.title, voices, reading: tuned, score, meter };
  });
  if (tunes.every(({ reading }) => reading.parts.length === 0)) {
    throw new Trouble(tunes[0]?.reading.warnings[0]?.message ?? `No tune was found in ${file}.`);
  }
  const { guessedEncoding, warnings } = source;
  if (out !== undefined) return { format, guessedEncoding, ...writeAll(tunes, format, out), warnings };
  if (format === 'midi') throw new Trouble('MIDI is not text: say where to write it with --out DIR.');
  return { format: source.format, guessedEncoding, tunes: toldTunes(tunes, format), warnings };
};

function openSource(file: string): NotationFile {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    throw cannotRead(file, error);
  }
  const source = readNotationFile(bytes, path.basename(file));
  if ('refusal' in source) throw new Trouble(source.refusal);
  return source;
}

interface Found extends EntryWithScore {
  number: number | null;
  title: string | null;
  /** In which typed tab was read that does not say its meter. */
  meter: Meter;
}

function toldTunes(tunes: readonly Found[], format: Format): unknown[] {
  if (format === 'json') {
    return tunes.map(({ number, reading, voices, title }) => ({ number, voices, ...reading, title }));
  }
  const told = tunes.map((tune) => {
    const { number, title, reading } = tune;
    const made = contentOf(tune, format);
    const text = 'refusal' in made ? { text: null, why: made.refusal } : { text: made.content };
    return { number, title, ...text, warnings: reading.warnings };
  });
  const none = told.find((tune) => 'why' in tune);
  if (none && 'why' in none && told.every(({ text }) => text === null)) throw new Trouble(none.why);
  return told;
}

function writeAll(
  tunes: readonly Found[],
  format: Format,
  folder: string,
): { written: string[]; notWritten: { number: number | null; title: string | null; why: string }[] } {
  const taken = new Set<string>();
  const written: string[] = [];
  const notWritten: { number: number | null; title: string | null; why: string }[] = [];
  mkdirSync(folder, { recursive: true });
  for (const [index, tune] of tunes.entries()) {
    const { number, title } = tune;
    const made = contentOf(tune, format);
    if ('refusal' in made) {
      notWritten.push({ number, title, why: made.refusal });
      continue;
    }
    const target = path.join(folder, freeName(String(number ?? index + 1), taken) + FORMATS[format]);
    writeFileSync(target, made.content);
    written.push(target);
  }
  return { written, notWritten };
}

/** Sources number their tunes as they please: a number met again gets a dash and how often it was met. */
function freeName(wanted: string, taken: Set<string>): string {
  let name = wanted;
  for (let times = 2; taken.has(name); times += 1) name = `${wanted}-${times}`;
  taken.add(name);
  return name;
}

function contentOf(
  { reading, score, meter }: Found,
  format: Format,
): { content: string | Uint8Array } | { refusal: string } {
  if (reading.parts.length === 0) {
    return { refusal: reading.warnings[0]?.message ?? 'Nothing that could be read was found in this.' };
  }
  if (format === 'json') return { content: `${JSON.stringify(reading, null, 2)}\n` };
  const draft = draftOfReading(reading, { ...DEFAULTS, meter });
  if (format === 'tab') {
    const tune = tuneOf(playedOutDraft(draft));
    const written = writeTypedTab(tune, firstLayer(tune).id);
    return 'refusal' in written ? written : { content: written.text };
  }
  // what was read into measures at once has no score
  const played = playedOut(score ?? scoreOf(draft));
  if (format === 'abc') return { content: writeAbc(played) };
  return { content: format === 'midi' ? writeMidi(played) : writeMusicXml(played) };
}

/** One part that is all of the form. */
function playedOutDraft(draft: TuneDraft): TuneDraft {
  const parts = new Map(draft.parts.map(({ name, measures }) => [name, measures]));
  const measures = [...draft.form].flatMap((letter) => parts.get(letter) ?? []);
  const own = measures.map((measure) => ({ ...measure, sameAs: null }));
  return { ...draft, form: 'A', parts: [{ name: 'A', measures: own }] };
}

function tuneOf(draft: TuneDraft): Tune {
  let ids = 0;
  return makeTune(draft, () => String((ids += 1)), { at: 0, offsetMin: 0 });
}

function scoreOf(draft: TuneDraft): Score {
  const tune = tuneOf(draft);
  return scoreOfTune(tune, firstLayer(tune).id);
}

function readOneOf<T extends string>(name: string, text: string, known: readonly T[]): T {
  const found = known.find((candidate) => candidate === text);
  if (!found) throw new Trouble(`Give the ${name} as one of ${known.join(', ')}: saw ${text}.`);
  return found;
}
