import { METERS, meterShape, TEMPO_MAX, TEMPO_MIN, type Meter } from '../src/lib/core/rhythm/meter';
import type { ReadingWarning } from '../src/lib/core/notation/reading';
import { readTypedTab } from '../src/lib/core/notation/typed-tab';
import type { MeasureContent } from '../src/lib/core/tune/shared-measures';
import type { PartDraft, TuneDraft } from '../src/lib/core/tune/make-tune';
import { COMMON_TUNINGS } from '../src/lib/core/tune/tuning';

export interface DemoTune {
  draft: TuneDraft;
  /** The file's `Source:` line. */
  source: string;
  /** What the tab reader had to say; lines count from the top of the file. */
  warnings: readonly ReadingWarning[];
}

/** What a layer makes of some measures of a tune. */
export interface DemoLayer {
  name: string;
  changes: readonly { part: string; index: number; content: MeasureContent }[];
}

type Header = ReadonlyMap<string, string>;

/** Reads one file of sample-data/tunes (see the README there). Throws an Error that names the header line at fault. */
export function readDemoTune(text: string): DemoTune {
  const { header, body } = splitFile(text);
  const meter = meterOf(header);
  const form = field(header, 'Form');
  const reading = header.has('Measures') ? null : readTypedTab(body, { meter });
  const parts = reading ? reading.parts : partsWithoutTab(header, meter);
  const names = parts.map(({ name }) => name);
  if ([...new Set(form)].sort().join('') !== [...names].sort().join('')) {
    throw new Error(`Form: ${form} does not name the parts of the file, ${names.join(', ')}`);
  }
  return {
    draft: {
      title: field(header, 'Title'),
      tuning: tuningOf(header),
      capo: wholeNumber(header, 'Capo', 0, 12),
      spike: wholeNumber(header, 'Spike', 0, 12),
      key: field(header, 'Key'),
      meter,
      goalTempo: wholeNumber(header, 'Goal', TEMPO_MIN, TEMPO_MAX),
      form,
      parts,
      pickup: reading?.pickup ?? null,
    },
    source: field(header, 'Source'),
    warnings: reading?.warnings ?? [],
  };
}

/** Reads one file of sample-data/layers, a layer of a tune in a meter. Throws an Error that names the header line at fault. */
export function readDemoLayer(text: string, meter: Meter): DemoLayer {
  const { header, body } = splitFile(text);
  const places = entries(header, 'Changes', /^([A-Z])(\d+)$/);
  const measures = readTypedTab(body, { meter }).parts.flatMap((part) => part.measures);
  if (measures.length !== places.length) {
    throw new Error(`Changes: names ${places.length} measures, and the tab has ${measures.length}`);
  }
  return {
    name: field(header, 'Layer'),
    changes: measures.map(({ beats, strikes }, at) => {
      const [, part = '', number] = places[at] ?? [];
      return { part, index: Number(number) - 1, content: { beats, strikes } };
    }),
  };
}

/** The header lines, and the rest with blank lines for them, which keep the line numbers of the file. */
function splitFile(text: string): { header: Header; body: string } {
  const lines = text.split(/\r?\n/);
  const end = lines.findIndex((line) => !/^[A-Z][a-z]+: /.test(line));
  const headed = end === -1 ? lines : lines.slice(0, end);
  const header: Header = new Map(
    headed.map((line) => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]),
  );
  return { header, body: [...headed.map(() => ''), ...lines.slice(headed.length)].join('\n') };
}

function field(header: Header, name: string): string {
  const value = header.get(name);
  if (!value) throw new Error(`${name}: is missing`);
  return value;
}

function wholeNumber(header: Header, name: string, least: number, most: number): number {
  const text = header.get(name) ?? '0';
  const value = Number(text);
  if (!Number.isInteger(value) || value < least || value > most) {
    throw new Error(`${name}: must be a whole number from ${least} to ${most}, saw ${text}`);
  }
  return value;
}

function meterOf(header: Header): Meter {
  const text = field(header, 'Meter');
  const meter = METERS.find((known) => known === text);
  if (!meter) throw new Error(`Meter: must be one of ${METERS.join(', ')}, saw ${text}`);
  return meter;
}

function tuningOf(header: Header): TuneDraft['tuning'] {
  const text = field(header, 'Tuning');
  const named = COMMON_TUNINGS.find(({ name }) => name === text);
  if (!named) throw new Error(`Tuning: must be a common tuning such as gDGBD, saw ${text}`);
  return named.tuning;
}

/** The entries of a line such as `A5 = A1, A6 = A2`, each matched against `shape`. */
function entries(header: Header, name: string, shape: RegExp): RegExpExecArray[] {
  const text = header.get(name);
  if (!text) return [];
  return text.split(/,\s*/).map((entry) => {
    const match = shape.exec(entry);
    if (!match) throw new Error(`${name}: cannot read ${entry}`);
    return match;
  });
}

function partsWithoutTab(header: Header, meter: Meter): PartDraft[] {
  const lengths = new Map(
    entries(header, 'Lengths', /^([A-Z]\d+) (\d+(?:\.5)?)$/).map(([, place, beats]) => [
      place,
      Number(beats),
    ]),
  );
  const shared = new Map(
    entries(header, 'Shared', /^([A-Z]\d+) = ([A-Z])(\d+)$/).map(([, place, part, number]) => [
      place,
      { part: part ?? '', index: Number(number) - 1 },
    ]),
  );
  return entries(header, 'Measures', /^([A-Z]) (\d+)$/).map(([, name = '', count]) => ({
    name,
    measures: Array.from({ length: Number(count) }, (_, index) => ({
      beats: lengths.get(`${name}${index + 1}`) ?? meterShape(meter).beats,
      strikes: null,
      sameAs: shared.get(`${name}${index + 1}`) ?? null,
    })),
  }));
}
