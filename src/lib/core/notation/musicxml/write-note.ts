import { impliedTechnique } from './read-note';
import type { ScoreNote } from '../score';
import type { NoteValue } from './note-values';

const STEPS = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];

/** Text as XML holds it: markup escaped, signs that XML 1.0 forbids left out. */
export function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** The elements of a MIDI pitch, in sharps. */
export function pitchXml(midi: number, prefix = ''): string {
  const name = STEPS[midi % 12] ?? 'C';
  const alter = name.length > 1 ? `<${prefix}alter>1</${prefix}alter>` : '';
  const octave = Math.floor(midi / 12) - 1;
  return `<${prefix}step>${name[0]}</${prefix}step>${alter}<${prefix}octave>${octave}</${prefix}octave>`;
}

export interface WrittenNote {
  /** `null` is a rest. */
  note: ScoreNote | null;
  value: NoteValue;
  duration: number;
  inChord: boolean;
  tieStop: boolean;
  tieStart: boolean;
  /** The technique that the next note on the string ends. */
  begins: 'hammer-on' | 'pull-off' | 'slide' | null;
  /** Not the first of several tied values: marks stand on the first. */
  continued: boolean;
  lyric: string | null;
}

/** One `<note>`, its elements in the order that the schema asks for. */
export function noteXml(written: WrittenNote): string {
  const { note, value, duration, inChord, tieStop, tieStart, lyric } = written;
  const ghost = note?.fingering?.weight === 'ghost';
  const tie = (name: string) =>
    (tieStop ? `<${name} type="stop"/>` : '') + (tieStart ? `<${name} type="start"/>` : '');
  return [
    '<note>',
    inChord ? '<chord/>' : '',
    note ? `<pitch>${pitchXml(note.pitch)}</pitch>` : '<rest/>',
    `<duration>${duration}</duration>`,
    tie('tie'),
    '<voice>1</voice>',
    value.type ? `<type>${value.type}</type>` : '',
    '<dot/>'.repeat(value.dots),
    value.tuplet
      ? `<time-modification><actual-notes>${value.tuplet.actual}</actual-notes><normal-notes>${value.tuplet.normal}</normal-notes></time-modification>`
      : '',
    ghost ? '<notehead parentheses="yes">normal</notehead>' : '',
    note ? notations(written, tie('tied')) : '',
    lyric === null ? '' : `<lyric><syllabic>single</syllabic><text>${escaped(lyric)}</text></lyric>`,
    '</note>',
  ].join('');
}

function notations({ note, continued, begins }: WrittenNote, tied: string): string {
  const fingering = note?.fingering;
  if (!fingering) return tied && `<notations>${tied}</notations>`;
  const { string, fret, technique, finger, weight } = fingering;
  const place = `<string>${string}</string><fret>${fret}</fret>`;
  if (continued) return `<notations>${tied}<technical>${place}</technical></notations>`;
  const ends =
    technique === 'hammer-on' || technique === 'pull-off' || technique === 'slide' ? technique : null;
  const thumb = technique === 'drop-thumb' || technique === 'drone';
  const brush = technique === 'brush';
  const implied = impliedTechnique({ ends, arpeggiated: brush, thumb, string, fret });
  const letter = { 'hammer-on': 'H', 'pull-off': 'P' };
  const marks = [
    finger ? `<fingering>${finger}</fingering>` : '',
    thumb ? '<pluck>T</pluck>' : '',
    ends && ends !== 'slide' ? `<${ends} type="stop">${letter[ends]}</${ends}>` : '',
    begins && begins !== 'slide' ? `<${begins} type="start">${letter[begins]}</${begins}>` : '',
    implied !== technique && technique !== 'tie' ? `<other-technical>${technique}</other-technical>` : '',
  ].join('');
  const slides =
    (ends === 'slide' ? '<slide type="stop"/>' : '') + (begins === 'slide' ? '<slide type="start"/>' : '');
  return [
    `<notations>${tied}${slides}<technical>${place}${marks}</technical>`,
    weight === 'accent' ? '<articulations><accent/></articulations>' : '',
    brush ? '<arpeggiate/>' : '',
    '</notations>',
  ].join('');
}
