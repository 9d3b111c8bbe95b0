import { say } from '../../texts/reading';
import { sourceText } from './source-text';

/** What a source is by its content: bytes of a known format, decoded text of one, or a sentence that says why neither. */
export type Sniffed =
  | { format: 'mxl' | 'midi' }
  | { format: 'abc' | 'musicxml' | 'tab'; text: string; guessedEncoding: string | null }
  | { refusal: string };

/** First bytes of files that people choose by mistake (registered signatures, from memory); `*` is any byte. */
const SIGNATURES: readonly [prefix: string, kind: keyof typeof say.otherKinds][] = [
  ['%PDF', 'pdf'],
  ['\x89PNG', 'picture'],
  ['\xff\xd8\xff', 'picture'],
  ['GIF8', 'picture'],
  ['II*\x00', 'picture'],
  ['MM\x00*', 'picture'],
  ['RIFF****WEBP', 'picture'],
  ['****ftyphei', 'picture'],
  ['****ftypmif1', 'picture'],
  ['****ftypavif', 'picture'],
  ['****ftyp', 'recording'],
  ['RIFF****WAVE', 'recording'],
  ['FORM****AIF', 'recording'],
  ['ID3', 'recording'],
  ['OggS', 'recording'],
  ['fLaC', 'recording'],
  ['\xff\xfb', 'recording'],
  ['\xff\xf3', 'recording'],
  ['\x1aE\xdf\xa3', 'recording'],
  ['\x1f\x8b', 'packed'],
  ['7z\xbc\xaf', 'packed'],
  ['Rar!', 'packed'],
];

const STRINGS = 5;

/** Tells a source's format by its content, and by its name only where the content could be more than one thing. */
export function sniffFormat(bytes: Uint8Array, name: string): Sniffed {
  if (bytes.length === 0) return { refusal: say.emptyFile };
  if (startsWith(bytes, 'MThd')) return { format: 'midi' };
  if (startsWith(bytes, 'PK\x03\x04')) return { format: 'mxl' };
  const known = SIGNATURES.find(([prefix]) => startsWith(bytes, prefix));
  if (known) return { refusal: say.otherKinds[known[1]] };
  const { text, encoding, guessed } = sourceText(bytes);
  const sniffed = sniffText(text, name);
  return typeof sniffed === 'string'
    ? { format: sniffed, text, guessedEncoding: guessed ? encoding : null }
    : sniffed;
}

function sniffText(text: string, name: string): 'abc' | 'musicxml' | 'tab' | { refusal: string } {
  const head = text.slice(0, 4096).trimStart();
  if (head === '') return { refusal: say.blank };
  if (head.startsWith('{') && head.includes('phrasewright-backup')) {
    return { refusal: say.backup };
  }
  if (/<score-(?:partwise|timewise)\b/.test(head)) return 'musicxml';
  if (/^<(?:!doctype\s+)?html\b/i.test(head)) {
    return { refusal: say.webPage };
  }
  if (head.startsWith('<?xml') || head.startsWith('<')) {
    return /\.(?:musicxml|xml)$/i.test(name) ? 'musicxml' : { refusal: say.noNotation };
  }
  if (/^%abc\b/.test(head) || /^X:\s*\d/m.test(text)) return 'abc';
  if (holdsTab(text)) return 'tab';
  if (/^K:\s*\S/m.test(text) || /\.abc$/i.test(name)) return 'abc';
  return /\.tab$/i.test(name) ? 'tab' : { refusal: say.noNotation };
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
