import { say } from '../../texts/typed-tab';
import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { divide, subtract } from '../rhythm/rational';
import { measureLabel } from '../tune/passage-name';
import { partPlaces, type Place } from '../tune/places';
import type { Id, Layer, Pickup, Tune } from '../tune/tune';
import { pitchName, tuningName } from '../tune/tuning';
import { shapeOf } from './typed-tab-beside';
import {
  wholeMeasure,
  writtenMeasure,
  type MeasureToWrite,
  type WrittenMeasure,
  type WrittenWord,
} from './write-typed-measure';

/** As wide as typed tab usually is: it fits a page and a phone on its side. */
const LINE_MAX = 72;
/** As many as the reader takes for words beside a system. */
const WORD_LINES_MAX = 6;

/** What the marks mean, in the order in which they are told. */
const MARKS: readonly [mark: RegExp, meaning: string][] = [
  [/h\d/, 'h hammer-on'],
  [/p\d/, 'p pull-off'],
  [/s\d/, 's slide'],
  [/d\d/, 'd drop-thumb'],
  [/t\d/, 't thumb'],
  [/m\d/, 'm struck'],
  [/br\d/, 'br brush'],
  [/~\d/, '~ held'],
  [/>/, '> accent'],
  [/\(/, '( ) ghost'],
];

/**
 * One layer of a tune as typed tab: a header, the parts by name, five lines a system with the count under them. What
 * `readTypedTab` reads of it are the same measures; left-hand fingers, and lengths that are no note value, are not
 * carried. A measure without tab is left blank and named in the header; a tune without any is refused in a sentence.
 */
export function writeTypedTab(tune: Tune, layerId: Id): { text: string } | { refusal: string } {
  const parts = tune.parts.map(({ name }) => ({ name, places: partPlaces(tune, layerId, name) }));
  const places = parts.flatMap((part) => part.places);
  if (places.every(({ figure }) => figure.strikes === null)) {
    const isMelody = places.some(({ figure }) => figure.melody);
    return { refusal: isMelody ? say.melodyOnly : say.nothingToWrite };
  }
  const written = parts.map(({ name, places: of }, index) => ({
    name,
    measures: of.map((place) => ({ place, measure: writtenPlace(place, tune.meter) })),
    pickup:
      index === 0 && tune.pickup ? writtenMeasure(pickupToWrite(tune.pickup, tune.meter), tune.meter) : null,
  }));
  const all = written.flatMap(({ measures }) => measures);
  const bodies = written.map(({ name, measures, pickup }) => {
    const isTwice = playedTwice(tune.form, name);
    const bars = measures.map(({ measure }, index): Bar => {
      const isLast = index === measures.length - 1;
      const closing = isLast ? (isTwice ? ':|' : '||') : '|';
      return { measure, opening: isTwice && index === 0 ? '|:' : '|', closing };
    });
    const led: Bar[] = pickup ? [{ measure: pickup, opening: '|', closing: '|' }, ...bars] : bars;
    return [`${name} part`, ...systems(led, stringNames(tune))].join('\n\n').replace('\n\n', '\n');
  });
  const rows = [
    ...written.flatMap(({ pickup }) => pickup ?? []),
    ...all.map(({ measure }) => measure),
  ].flatMap((measure) => measure.rows);
  const head = headerLines(tune, layerId, rows, blankPlaces(all));
  return { text: `${[head.join('\n'), ...bodies].join('\n\n')}\n` };
}

interface Bar {
  measure: WrittenMeasure;
  opening: '|' | '|:';
  closing: '|' | '||' | ':|';
}

function writtenPlace({ figure, measure }: Place, meter: Meter): WrittenMeasure {
  const labels = measure.labels ?? [];
  return writtenMeasure(wholeMeasure(figure.beats, figure.strikes, labels, meter), meter);
}

function pickupToWrite({ beats, strikes }: Pickup, meter: Meter): MeasureToWrite {
  const shape = meterShape(meter);
  const length = divide(beatsToWholeNotes(meter, beats), shape.beat);
  return { from: subtract([shape.beats, 1], length), to: [shape.beats, 1], strikes, labels: [] };
}

function blankPlaces(all: readonly { place: Place; measure: WrittenMeasure }[]): string[] {
  return all
    .filter(({ place, measure }) => place.figure.strikes === null || measure.isTooFine)
    .map(({ place }) => measureLabel(place));
}

/** True for a part that the form plays in pairs only. */
function playedTwice(form: string, name: string): boolean {
  const runs = form.match(/(.)\1*/g) ?? [];
  const own = runs.filter((run) => run.startsWith(name));
  return own.length > 0 && own.every((run) => run.length === 2);
}

function headerLines(tune: Tune, layerId: Id, rows: readonly string[], blank: readonly string[]): string[] {
  const layer = tune.layers.find(({ id }) => id === layerId);
  const marks = MARKS.filter(([mark]) => rows.some((row) => mark.test(row))).map(([, meaning]) => meaning);
  const isRaised = tune.capo > 0 || tune.spike > 0;
  const lines: [label: string, value: string | number | null][] = [
    ['Title', oneLine(tune.title)],
    ['Tuning', tuningName(tune.tuning)],
    ['Capo', isRaised ? tune.capo : null],
    ['Spike', isRaised ? tune.spike : null],
    ['Key', oneLine(tune.key)],
    ['Meter', tune.meter],
    ['Tempo', tune.goalTempo],
    ['Form', tune.form],
    ['Layer', layerName(tune.layers, layer)],
    ['Marks', marks.join(', ')],
    ['No tab', blank.length > 0 ? `${blank.join(', ')} (left blank)` : null],
  ];
  return lines.flatMap(([label, value]) => (value === null || value === '' ? [] : [`${label}: ${value}`]));
}

function layerName(layers: readonly Layer[], layer: Layer | undefined): string | null {
  return layers.length > 1 && layer ? oneLine(layer.name) : null;
}

function oneLine(text: string): string {
  return text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
}

/** Letters of the strings, first string first, the short one in lower case, all of one width. */
function stringNames({ tuning }: Tune): string[] {
  const [fifth, ...long] = tuning;
  const names = [...long.map(pitchName).reverse(), pitchName(fifth).toLowerCase()];
  const width = Math.max(...names.map(({ length }) => length));
  return names.map((name) => name.padEnd(width));
}

/** Measures on as many systems as they take, each as its lines. */
function systems(bars: readonly Bar[], names: readonly string[]): string[] {
  const margin = names[0]?.length ?? 1;
  const lines: Bar[][] = [];
  let width = 0;
  for (const bar of bars) {
    const wide = bar.opening.length + (bar.measure.rows[0]?.length ?? 0);
    const line = lines.at(-1);
    if (line && width + wide + bar.closing.length <= LINE_MAX) {
      line.push(bar);
      width += wide;
    } else {
      lines.push([bar]);
      width = margin + wide;
    }
  }
  return lines.map((line) => system(line, names));
}

function system(bars: readonly Bar[], names: readonly string[]): string {
  let at = names[0]?.length ?? 1;
  const starts = bars.map(({ measure, opening }) => {
    const start = at + opening.length;
    at = start + (measure.rows[0]?.length ?? 0);
    return start;
  });
  const rows = names.map((name, string) => {
    const drawn = bars.map(({ measure, opening }) => opening + (measure.rows[string] ?? '')).join('');
    return name + drawn + (bars.at(-1)?.closing ?? '|');
  });
  const placed = (of: (measure: WrittenMeasure) => readonly WrittenWord[]) =>
    bars.flatMap(({ measure }, index) =>
      of(measure).map(({ text, column }) => ({ text, column: column + (starts[index] ?? 0) })),
    );
  const chords = placed(({ chords }) => chords).map(asToken);
  const isChord = ({ text }: WrittenWord) => shapeOf(text) === 'chords';
  const words = [
    ...placed((measure) => measure.words).map(asToken),
    ...chords.filter((one) => !isChord(one)),
  ];
  return [
    ...wordLines(chords.filter(isChord)),
    ...wordLines(placed(({ letters }) => letters)),
    ...rows,
    ...wordLines(placed(({ count }) => count)),
    ...wordLines(words.sort((a, b) => a.column - b.column)),
  ].join('\n');
}

/** A label without what would be taken for the end of it, or for a string. */
function asToken({ text, column }: WrittenWord): WrittenWord {
  const token = oneLine(text).replace(/ /g, '_').replaceAll('|', '/').replace(/-{2,}/g, '-');
  return { text: token, column };
}

/** Words in the order of their columns on as few lines as hold them side by side. */
function wordLines(words: readonly WrittenWord[]): string[] {
  const lines: string[] = [];
  for (const { text, column } of words) {
    if (text === '') continue;
    const free = lines.findIndex((line) => line.length < column || line === '');
    if (free >= 0) lines[free] = (lines[free] ?? '').padEnd(column) + text;
    else if (lines.length < WORD_LINES_MAX) lines.push(' '.repeat(column) + text);
  }
  return lines;
}
