import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { writeAbc } from '../lib/core/notation/abc/write-abc';
import { writeMidi } from '../lib/core/notation/midi/write-midi';
import { writeMusicXml } from '../lib/core/notation/musicxml/write-musicxml';
import type { EntryWithScore, NotationFile } from '../lib/core/notation/notation-file';
import { playedOut } from '../lib/core/notation/play-order';
import { readNotationFile } from '../lib/core/notation/read-file';
import type { Reading } from '../lib/core/notation/reading';
import { draftOfReading, type ReadingDefaults } from '../lib/core/notation/reading-draft';
import type { Score } from '../lib/core/notation/score';
import { scoreOfTune } from '../lib/core/notation/score-of-tune';
import { METERS, type Meter } from '../lib/core/rhythm/meter';
import { makeTune } from '../lib/core/tune/make-tune';
import { firstLayer } from '../lib/core/tune/places';
import { cannotRead, readTuning } from './arguments';
import { Trouble } from './trouble';
import type { Verb } from './verbs';

const FORMATS = {
  json: '.json',
  abc: '.abc',
  musicxml: '.musicxml',
  midi: '.mid',
} as const;
type Format = keyof typeof FORMATS;

const DEFAULTS: ReadingDefaults = {
  title: 'Untitled',
  meter: '2/4',
  tuning: [67, 50, 55, 59, 62],
  goalTempo: 80,
};

/**
 * Reads a file of notation: all its tunes and what was not read, or with `--out` one file a tune, named by its number in
 * the source or its place there. What is written in a format is the melody as it is played, repeats played out.
 */
export const importFile: Verb = ({ meter = '2/4', as = 'json', tuning, out }, [file, ...more]) => {
  if (file === undefined || more.length > 0) throw new Trouble('Name one file to import.');
  const format = readOneOf<Format>('as', as, Object.keys(FORMATS) as Format[]);
  const source = openSource(file);
  const options = { meter: readOneOf<Meter>('meter', meter, METERS), voice: 0 };
  const wanted = readTuning(tuning);
  const tunes = source.entries.map(({ number, title }, index) => {
    const { reading, voices, score } = source.read(index, options);
    const tuned = wanted ? { ...reading, tuning: wanted } : reading;
    return { number, title: title ?? reading.title, voices, reading: tuned, score };
  });
  if (tunes.every(({ reading }) => reading.parts.length === 0)) {
    throw new Trouble(tunes[0]?.reading.warnings[0]?.message ?? `No tune was found in ${file}.`);
  }
  if (out !== undefined) {
    return { format, ...writeAll(tunes, format, out), warnings: source.warnings };
  }
  if (format === 'midi') throw new Trouble('MIDI is not text: say where to write it with --out DIR.');
  const told = tunes.map(({ number, reading, voices, score, title }) =>
    format === 'json'
      ? { number, voices, ...reading, title }
      : { number, title, text: contentOf(reading, score, format), warnings: reading.warnings },
  );
  return { format: source.format, tunes: told, warnings: source.warnings };
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

interface Found extends Omit<EntryWithScore, 'voices'> {
  number: number | null;
  title: string | null;
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
  for (const [index, { number, title, reading, score }] of tunes.entries()) {
    if (reading.parts.length === 0) {
      const why = reading.warnings[0]?.message ?? 'Nothing that could be read was found in this.';
      notWritten.push({ number, title, why });
      continue;
    }
    const target = path.join(folder, freeName(String(number ?? index + 1), taken) + FORMATS[format]);
    writeFileSync(target, contentOf(reading, score, format));
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

function contentOf(reading: Reading, score: Score | null, format: Format): string | Uint8Array {
  if (format === 'json') return `${JSON.stringify(reading, null, 2)}\n`;
  const played = playedOut(score ?? scoreOf(reading));
  if (format === 'abc') return writeAbc(played);
  return format === 'midi' ? writeMidi(played) : writeMusicXml(played);
}

/** What was read into measures at once, as a score. */
function scoreOf(reading: Reading): Score {
  let ids = 0;
  const draft = draftOfReading(reading, DEFAULTS);
  const tune = makeTune(draft, () => String((ids += 1)), { at: 0, offsetMin: 0 });
  return scoreOfTune(tune, firstLayer(tune).id);
}

function readOneOf<T extends string>(name: string, text: string, known: readonly T[]): T {
  const found = known.find((candidate) => candidate === text);
  if (!found) throw new Trouble(`Give the ${name} as one of ${known.join(', ')}: saw ${text}.`);
  return found;
}
