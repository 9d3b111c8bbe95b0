import { strToU8, zipSync } from 'fflate';
import { seeded } from '../../bench/random';

const SIZE = 5_000_000;

/** Five megabytes of one kind of text or bytes: nonsense, or nothing but signs that the format knows. */
export interface Heap {
  format: 'ABC' | 'MusicXML' | 'mxl' | 'MIDI' | 'typed tab' | 'no format';
  what: string;
  name: string;
  bytes: () => Uint8Array;
}

/** A piece again and again between a head and a tail, `size` bytes in all or a piece less. */
function filled(piece: string, head = '', tail = '', size = SIZE): Uint8Array {
  const times = Math.floor((size - head.length - tail.length) / piece.length);
  return strToU8(head + piece.repeat(times) + tail);
}

/** Signs at random, the same in every run. */
function scattered(signs: string, head: string): Uint8Array {
  const random = seeded(11);
  const bytes = new Uint8Array(SIZE);
  for (let at = 0; at < SIZE; at += 1) bytes[at] = signs.charCodeAt(Math.floor(random() * signs.length));
  bytes.set(strToU8(head));
  return bytes;
}

const ABC_HEAD = 'X:1\nK:C\n';
const ABC_SIGNS = 'abcdefgABCDEFGz|:[]()<>-^_="!{}0123456789/,\' \n';

const PITCH = '<pitch><step>A</step><octave>4</octave></pitch><duration>1</duration>';
const [PART, PART_END] = ['<score-partwise><part id="P1">', '</part></score-partwise>'];
const BRUSHED = `<note><chord/>${PITCH}<notations><arpeggiate/><technical><string>1</string><fret>2</fret></technical></notations></note>`;

function midi(format: number, byteAt: (index: number) => number): Uint8Array {
  const bytes = new Uint8Array(SIZE);
  const track = SIZE - 22;
  bytes.set([0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, format, 0, 1, 0x01, 0xe0, 0x4d, 0x54, 0x72, 0x6b]);
  new DataView(bytes.buffer).setUint32(18, track);
  for (let index = 0; index < track; index += 1) bytes[22 + index] = byteAt(index);
  return bytes;
}

const cycled = (bytes: readonly number[]) => (index: number) => bytes[index % bytes.length] ?? 0;

/** Note-ons without an end: every pitch of every channel, each held to the end of the track. */
function heldNotes(index: number): number {
  const event = Math.floor(index / 4);
  return [5, 0x90 + (event % 16), Math.floor(event / 16) % 128, 64][index % 4] ?? 0;
}

/** One system of five lines, as much of it as a text of tab may hold. */
function wideTab(piece: string): Uint8Array {
  const row = `|${piece.repeat(Math.floor(199_000 / piece.length))}`;
  return strToU8(`${row}\n`.repeat(5));
}

function random(head: readonly number[]): Uint8Array {
  const next = seeded(13);
  const bytes = Uint8Array.from({ length: SIZE }, () => Math.floor(256 * next()));
  bytes.set(head);
  return bytes;
}

/** Of every reader what took longest of some hundred kinds that were timed, and plain nonsense. */
export const heaps: readonly Heap[] = [
  ...[
    ['measures', 'abcd|\n'],
    ['braces that never close', '{'],
    ['fields', 'K:D\na\n'],
    ['tunes', 'X:1\nK:C\na|\n\n'],
  ].map(([what = '', piece = '']): Heap => ({
    ...{ format: 'ABC', what, name: 'a.abc', bytes: () => filled(piece, ABC_HEAD) },
  })),
  { format: 'ABC', what: 'signs at random', name: 'a.abc', bytes: () => scattered(ABC_SIGNS, ABC_HEAD) },
  ...[
    ['elements thirty deep', '<q z="1">&amp;'.repeat(30) + '</q>'.repeat(30), PART, PART_END],
    ['chords of 500 notes', `<measure>${BRUSHED.repeat(500)}</measure>`, PART, PART_END],
    ['empty elements', '<a/>', PART, PART_END],
    ['elements that never close', '<a>', PART, ''],
    ['entities', '<!ENTITY a "b">', '<!DOCTYPE score-partwise [', ']><score-partwise/>'],
    ['signs at random', '%§$<', '<score-partwise>', ''],
  ].map(([what = '', piece = '', head, tail]): Heap => ({
    ...{ format: 'MusicXML', what, name: 'a.musicxml', bytes: () => filled(piece, head, tail) },
  })),
  {
    ...{ format: 'mxl', what: 'a score of 5 MB', name: 'a.mxl' },
    bytes: () =>
      zipSync({
        'a.musicxml': [filled(`<measure><note>${PITCH}</note></measure>`, PART, PART_END), { level: 0 }],
      }),
  },
  { format: 'mxl', what: 'random bytes', name: 'a.mxl', bytes: () => random([0x50, 0x4b, 3, 4]) },
  {
    ...{ format: 'mxl', what: 'heads of entries', name: 'a.mxl' },
    bytes: () => filled('PK\x03\x04PK\x01\x02PK\x05\x06'),
  },
  {
    format: 'MIDI',
    what: 'notes',
    name: 'a.mid',
    bytes: () => midi(0, cycled([10, 0x90, 60, 64, 10, 0x80, 60, 64])),
  },
  { format: 'MIDI', what: 'notes that never end', name: 'a.mid', bytes: () => midi(0, heldNotes) },
  { format: 'MIDI', what: 'the same as 16 tunes', name: 'a.mid', bytes: () => midi(2, heldNotes) },
  {
    format: 'MIDI',
    what: 'meters',
    name: 'a.mid',
    bytes: () => midi(0, cycled([1, 0xff, 0x58, 4, 4, 2, 24, 8])),
  },
  {
    format: 'MIDI',
    what: 'random bytes',
    name: 'a.mid',
    bytes: () => random([...midi(0, () => 0).subarray(0, 22)]),
  },
  { format: 'typed tab', what: 'measures of one note', name: 'a.tab', bytes: () => wideTab('0-|') },
  {
    format: 'typed tab',
    what: 'measures of sixteen notes',
    name: 'a.tab',
    bytes: () => wideTab(`${'0-'.repeat(16)}|`),
  },
  { format: 'typed tab', what: 'repeats', name: 'a.tab', bytes: () => wideTab('0-:|') },
  {
    ...{ format: 'typed tab', what: 'more than is opened', name: 'a.tab' },
    bytes: () => filled(`${'|-0---2-|\n'.repeat(5)}\n`),
  },
  { format: 'no format', what: 'random bytes', name: '', bytes: () => random([0]) },
  { format: 'no format', what: 'zeros', name: '', bytes: () => new Uint8Array(SIZE) },
  {
    format: 'no format',
    what: 'one byte beyond ASCII',
    name: '',
    bytes: () => new Uint8Array(SIZE).fill(0xe9),
  },
  { format: 'no format', what: 'prose', name: '', bytes: () => filled('Dear Ada, the tune is lovely. ') },
];
