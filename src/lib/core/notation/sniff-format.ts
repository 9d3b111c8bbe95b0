import { sourceText } from './source-text';

/** What a source is by its content: bytes of a known format, decoded text of one, or a sentence that says why neither. */
export type Sniffed =
  | { format: 'mxl' | 'midi' }
  | { format: 'abc' | 'musicxml' | 'tab'; text: string; guessedEncoding: string | null }
  | { refusal: string };

const PICTURE = 'a picture. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab';
const SOUND = 'a recording. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab';
const PDF = 'a PDF. Its notes cannot be read: look for the tune as ABC, MusicXML, MIDI or typed tab';
const PACKED = 'a packed archive of a kind that is not opened here: unpack it, and open the file inside';

/** First bytes of files that people choose by mistake (registered signatures, from memory); `*` is any byte. */
const SIGNATURES: readonly [prefix: string, what: string][] = [
  ['%PDF', PDF],
  ['\x89PNG', PICTURE],
  ['\xff\xd8\xff', PICTURE],
  ['GIF8', PICTURE],
  ['II*\x00', PICTURE],
  ['MM\x00*', PICTURE],
  ['RIFF****WEBP', PICTURE],
  ['****ftyphei', PICTURE],
  ['****ftypmif1', PICTURE],
  ['****ftypavif', PICTURE],
  ['****ftyp', SOUND],
  ['RIFF****WAVE', SOUND],
  ['FORM****AIF', SOUND],
  ['ID3', SOUND],
  ['OggS', SOUND],
  ['fLaC', SOUND],
  ['\xff\xfb', SOUND],
  ['\xff\xf3', SOUND],
  ['\x1aE\xdf\xa3', SOUND],
  ['\x1f\x8b', PACKED],
  ['7z\xbc\xaf', PACKED],
  ['Rar!', PACKED],
];

const NOTHING = 'No notation was found in this. ABC, MusicXML, MIDI and typed tab of five lines can be read.';
const STRINGS = 5;

/** Tells a source's format by its content, and by its name only where the content could be more than one thing. */
export function sniffFormat(bytes: Uint8Array, name: string): Sniffed {
  if (bytes.length === 0) return { refusal: 'This file is empty.' };
  if (startsWith(bytes, 'MThd')) return { format: 'midi' };
  if (startsWith(bytes, 'PK\x03\x04')) return { format: 'mxl' };
  const known = SIGNATURES.find(([prefix]) => startsWith(bytes, prefix));
  if (known) return { refusal: `This is ${known[1]}.` };
  const { text, encoding, guessed } = sourceText(bytes);
  const sniffed = sniffText(text, name);
  return typeof sniffed === 'string'
    ? { format: sniffed, text, guessedEncoding: guessed ? encoding : null }
    : sniffed;
}

function sniffText(text: string, name: string): 'abc' | 'musicxml' | 'tab' | { refusal: string } {
  const head = text.slice(0, 4096).trimStart();
  if (head === '') return { refusal: 'There is nothing in this but blank space.' };
  if (head.startsWith('{') && head.includes('phrasewright-backup')) {
    return { refusal: 'This is a backup of a whole book. Open it in Settings, under "Your book".' };
  }
  if (/<score-(?:partwise|timewise)\b/.test(head)) return 'musicxml';
  if (/^<(?:!doctype\s+)?html\b/i.test(head)) {
    return { refusal: 'This is a web page. Copy the notation out of it and paste that instead.' };
  }
  if (head.startsWith('<?xml') || head.startsWith('<')) {
    return /\.(?:musicxml|xml)$/i.test(name) ? 'musicxml' : { refusal: NOTHING };
  }
  if (/^%abc\b/.test(head) || /^X:\s*\d/m.test(text)) return 'abc';
  if (holdsTab(text)) return 'tab';
  if (/^K:\s*\S/m.test(text) || /\.abc$/i.test(name)) return 'abc';
  return /\.tab$/i.test(name) ? 'tab' : { refusal: NOTHING };
}

/** A system of tab is five lines in a row that each hold a run of dashes. */
function holdsTab(text: string): boolean {
  let run = 0;
  for (const line of text.split('\n')) {
    run = line.includes('--') ? run + 1 : 0;
    if (run === STRINGS) return true;
  }
  return false;
}

function startsWith(bytes: Uint8Array, prefix: string): boolean {
  if (bytes.length < prefix.length) return false;
  for (let index = 0; index < prefix.length; index += 1) {
    const wanted = prefix.charCodeAt(index);
    if (prefix[index] !== '*' && bytes[index] !== wanted) return false;
  }
  return true;
}
