import {
  add,
  compare,
  equal,
  multiply,
  rational,
  subtract,
  toNumber,
  ZERO,
  type Rational,
} from '../../rhythm/rational';
import type { MeasureLabel } from '../../tune/tune';
import type { Score, ScoreMeasure, ScoreMeter, ScoreNote, ScoreVoice } from '../score';
import { noteValues, type NoteValue } from './note-values';
import { keySignature } from '../key-words';
import { kindOf } from './read-words';
import { scoreBeat } from '../score-meter';
import { escaped, noteXml, pitchXml, type WrittenNote } from './write-note';

/**
 * A MusicXML 4.0 document by parts, one part a voice, with tab where notes carry fingering. The standard's capo raises
 * every string, so the short string's `staff-tuning` is what `score.tuning` says, whatever raises it.
 */
export function writeMusicXml(score: Score): string {
  const { divisions, voices } = { divisions: divisionsOf(score), voices: score.voices };
  const ids = voices.map((voice, index) => ({ voice, id: `P${index + 1}` }));
  const list = ids.map(
    ({ voice, id }) => `<score-part id="${id}"><part-name>${escaped(voice.name)}</part-name></score-part>`,
  );
  const field = score.key
    ? `<identification><miscellaneous><miscellaneous-field name="key">${escaped(score.key)}</miscellaneous-field></miscellaneous></identification>`
    : '';
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<score-partwise version="4.0">',
    score.title ? `<movement-title>${escaped(score.title)}</movement-title>` : '',
    field,
    `<part-list>${list.join('')}</part-list>`,
    ...ids.map(({ voice, id }) => `<part id="${id}">\n${partXml(score, voice, divisions)}\n</part>`),
    '</score-partwise>\n',
  ].join('\n');
}

function partXml(score: Score, voice: ScoreVoice, divisions: number): string {
  let meter: ScoreMeter | null | undefined;
  const pickup = isPickup(voice.measures[0]) ? 1 : 0;
  return voice.measures
    .map((measure, index) => {
      const first = index === 0;
      const changed = first || meter?.count !== measure.meter?.count || meter?.unit !== measure.meter?.unit;
      meter = measure.meter;
      const number = `number="${index + 1 - pickup}"${first && pickup ? ' implicit="yes"' : ''}`;
      return [
        `<measure ${number}>`,
        leftBar(measure, voice.measures[index - 1]),
        changed ? attributesXml(score, voice, measure, first ? divisions : null) : '',
        first && score.tempo !== null ? tempoXml(score.tempo, score.meter) : '',
        measure.part
          ? `<direction placement="above"><direction-type><rehearsal>${escaped(measure.part)}</rehearsal></direction-type></direction>`
          : '',
        ...layersOf(measure.notes).map(
          (layer, at) =>
            (at === 0 ? '' : backup(measure.length, divisions)) +
            layerXml(voice, index, layer, divisions, at === 0),
        ),
        rightBar(measure, voice.measures[index + 1]),
        '</measure>',
      ].join('');
    })
    .join('\n');
}

function isPickup(measure: ScoreMeasure | undefined): boolean {
  if (!measure?.meter) return false;
  return compare(measure.length, rational(measure.meter.count, measure.meter.unit)) < 0;
}

function attributesXml(
  score: Score,
  { measures }: ScoreVoice,
  measure: ScoreMeasure,
  divisions: number | null,
): string {
  const { meter } = measure;
  const time = meter
    ? `<time><beats>${meter.count}</beats><beat-type>${meter.unit}</beat-type></time>`
    : '<time><senza-misura/></time>';
  if (divisions === null) return `<attributes>${time}</attributes>`;
  const { sharps, mode } = keySignature(score.key);
  const key = `<key><fifths>${sharps}</fifths>${mode ? `<mode>${mode}</mode>` : ''}</key>`;
  const tab = score.tuning && measures.some(({ notes }) => notes.some(({ fingering }) => fingering));
  const lines = (score.tuning ?? []).map(
    (pitch, index) => `<staff-tuning line="${index + 1}">${pitchXml(pitch, 'tuning-')}</staff-tuning>`,
  );
  const capo = score.capo === null ? '' : `<capo>${score.capo}</capo>`;
  const staff = tab
    ? `<clef><sign>TAB</sign><line>5</line></clef><staff-details><staff-lines>5</staff-lines>${lines.join('')}${capo}</staff-details>`
    : '<clef><sign>G</sign><line>2</line></clef>';
  return `<attributes><divisions>${divisions}</divisions>${key}${time}${staff}</attributes>`;
}

function tempoXml(tempo: number, meter: ScoreMeter | null): string {
  const quarters = tempo * toNumber(multiply(scoreBeat(meter), [4, 1]));
  const perMinute = Math.round(quarters * 1e6) / 1e6;
  return `<direction placement="above"><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>${perMinute}</per-minute></metronome></direction-type><sound tempo="${perMinute}"/></direction>`;
}

const sameEnding = (a: ScoreMeasure | undefined, b: ScoreMeasure) => a?.ending?.join() === b.ending?.join();

function leftBar(measure: ScoreMeasure, before: ScoreMeasure | undefined): string {
  // two brackets of the same number are two when a repeat ends the first
  const begins = measure.ending && (!sameEnding(before, measure) || (before?.timesPlayed ?? 0) > 0);
  const ending = begins ? `<ending number="${measure.ending?.join(',')}" type="start"/>` : '';
  const repeat = measure.opensRepeat ? '<repeat direction="forward"/>' : '';
  const style = measure.opensRepeat ? '<bar-style>heavy-light</bar-style>' : '';
  return ending || repeat ? `<barline location="left">${style}${ending}${repeat}</barline>` : '';
}

function rightBar(measure: ScoreMeasure, after: ScoreMeasure | undefined): string {
  const repeats = measure.timesPlayed > 0;
  const stops = measure.ending && (!after || !sameEnding(after, measure) || repeats);
  const ending = stops
    ? `<ending number="${measure.ending?.join(',')}" type="${repeats ? 'stop' : 'discontinue'}"/>`
    : '';
  const repeat = repeats ? `<repeat direction="backward" times="${measure.timesPlayed}"/>` : '';
  const thick = repeats || (measure.endsSection && !after);
  const style = thick ? 'light-heavy' : measure.endsSection ? 'light-light' : null;
  const bar = style ? `<bar-style>${style}</bar-style>` : '';
  return bar || ending ? `<barline location="right">${bar}${ending}${repeat}</barline>` : '';
}

/** Notes that one row of writing can hold: those that begin together also end together, and none overlaps the next. */
function layersOf(notes: readonly ScoreNote[]): ScoreNote[][] {
  const layers: ScoreNote[][] = [];
  for (const note of notes) {
    const layer = layers.find((list) => {
      const last = list.at(-1);
      if (!last) return true;
      const together = equal(last.onset, note.onset) && equal(last.duration, note.duration);
      return together || compare(add(last.onset, last.duration), note.onset) <= 0;
    });
    if (layer) layer.push(note);
    else layers.push([note]);
  }
  return layers.length > 0 ? layers : [[]];
}

function backup(length: Rational, divisions: number): string {
  return `<backup><duration>${inDivisions(length, divisions)}</duration></backup>`;
}

/** The notes and rests of one layer to the end of the measure; its labels stand in the first layer. */
function layerXml(
  voice: ScoreVoice,
  index: number,
  notes: readonly ScoreNote[],
  divisions: number,
  labelled: boolean,
): string {
  const measure = voice.measures[index]!;
  const labels = labelled ? measure.labels : [];
  const out: string[] = [];
  let cursor = ZERO;
  const place = (onset: Rational, length: Rational, chord: readonly ScoreNote[]) => {
    const end = add(onset, length);
    const lyric =
      chord.length > 0 ? labels.find((one) => one.kind === 'word' && equal(one.onset, onset)) : undefined;
    const here = (one: MeasureLabel) => compare(one.onset, onset) >= 0 && compare(one.onset, end) < 0;
    for (const label of labels) {
      if (label !== lyric && here(label))
        out.push(labelXml(label, inDivisions(subtract(label.onset, onset), divisions)));
    }
    const values = noteValues(length);
    for (const [at, value] of values.entries()) {
      const shape = { value, duration: inDivisions(value.length, divisions) };
      const one = { at, last: at === values.length - 1, lyric: at === 0 ? (lyric?.text ?? null) : null };
      if (chord.length === 0) out.push(noteXml({ ...REST, ...shape }));
      for (const [rank, note] of chord.entries()) out.push(soundedXml(voice, index, note, rank, shape, one));
    }
    cursor = end;
  };
  for (const [at, note] of notes.entries()) {
    if (at > 0 && equal(notes[at - 1]!.onset, note.onset)) continue;
    if (compare(note.onset, cursor) > 0) place(cursor, subtract(note.onset, cursor), []);
    place(
      note.onset,
      note.duration,
      notes.filter(({ onset }) => equal(onset, note.onset)),
    );
  }
  if (compare(measure.length, cursor) > 0) place(cursor, subtract(measure.length, cursor), []);
  return out.join('');
}

const REST = {
  ...{ note: null, inChord: false, tieStop: false, tieStart: false, begins: null, continued: false },
  lyric: null,
};

function soundedXml(
  voice: ScoreVoice,
  index: number,
  note: ScoreNote,
  rank: number,
  shape: { value: NoteValue; duration: number },
  one: { at: number; last: boolean; lyric: string | null },
): string {
  const next = nextOf(voice, index, note);
  const technique = next?.fingering?.technique;
  const begins =
    technique === 'hammer-on' || technique === 'pull-off' || technique === 'slide' ? technique : null;
  const written: WrittenNote = {
    ...{ ...shape, note, begins: one.at === 0 ? begins : null },
    inChord: rank > 0,
    tieStop: one.at > 0 || note.tied === true || note.fingering?.technique === 'tie',
    tieStart: !one.last || (next?.tied === true && next.pitch === note.pitch),
    continued: one.at > 0,
    lyric: rank === 0 ? one.lyric : null,
  };
  return noteXml(written);
}

/** The next note on the same string, or of the same pitch where there is no fingering, in this measure or the next. */
function nextOf({ measures }: ScoreVoice, index: number, note: ScoreNote): ScoreNote | undefined {
  const same = (one: ScoreNote) =>
    note.fingering ? one.fingering?.string === note.fingering.string : one.pitch === note.pitch;
  const later = measures[index]?.notes.find((one) => compare(one.onset, note.onset) > 0 && same(one));
  return later ?? measures[index + 1]?.notes.find(same);
}

function labelXml({ kind, text }: MeasureLabel, offset: number): string {
  const by = offset === 0 ? '' : `<offset>${offset}</offset>`;
  if (kind === 'word') {
    return `<direction placement="below"><direction-type><words>${escaped(text)}</words></direction-type>${by}</direction>`;
  }
  const match = /^([A-G])([#b]?)([^/]*)(?:\/([A-G])([#b]?))?$/.exec(text);
  if (!match) return `<harmony><function>${escaped(text)}</function><kind text="">none</kind>${by}</harmony>`;
  const [, root, sign, suffix = '', bass, bassSign] = match;
  const step = (name: string, letter: string, accidental = '') =>
    `<${name}><${name}-step>${letter}</${name}-step>${accidental ? `<${name}-alter>${accidental === '#' ? 1 : -1}</${name}-alter>` : ''}</${name}>`;
  const over = bass ? step('bass', bass, bassSign) : '';
  return `<harmony>${step('root', root ?? '', sign)}<kind text="${escaped(suffix)}">${kindOf(suffix)}</kind>${over}${by}</harmony>`;
}

function inDivisions(length: Rational, divisions: number): number {
  return Math.round(toNumber(multiply(length, [4 * divisions, 1])));
}

/** The least number of divisions of a quarter note in which everything in the score is whole. */
function divisionsOf({ voices }: Score): number {
  let common = 1;
  const hold = (length: Rational) => {
    const [, denominator] = multiply(length, [4, 1]);
    if (common % denominator !== 0) common *= rational(denominator, common)[0];
  };
  for (const measure of voices.flatMap(({ measures }) => measures)) {
    hold(measure.length);
    for (const { onset } of measure.labels) hold(onset);
    for (const { onset, duration } of measure.notes) {
      hold(onset);
      noteValues(duration).forEach(({ length }) => hold(length));
    }
  }
  return common;
}
