import { NOTATION_BYTES_MAX, type EntryRead, type NotationFile } from './notation-file';
import { refusedReading } from './reading';
import { sniffFormat } from './sniff-format';
import { readTypedTab } from './typed-tab';

const ONLY_TAB = 'Only typed tab of five lines can be opened: look for the tune in that form';
const NOT_READ = {
  abc: `This is ABC. ${ONLY_TAB}.`,
  musicxml: `This is MusicXML. ${ONLY_TAB}.`,
  mxl: `This is compressed MusicXML, or another archive. ${ONLY_TAB}.`,
  midi: `This is a MIDI file. ${ONLY_TAB}.`,
} as const;

/**
 * Recognises a file (or pasted text as bytes, with an empty name) and lists its tunes; of a tunebook cheaply, however
 * long. Gives a sentence instead when there is nothing in it to read. Never throws, whatever the bytes.
 */
export function readNotationFile(bytes: Uint8Array, name: string): NotationFile | { refusal: string } {
  if (bytes.length > NOTATION_BYTES_MAX) {
    const most = NOTATION_BYTES_MAX / 1_000_000;
    return { refusal: `This file is larger than ${most} MB, more than any tunebook. It was not opened.` };
  }
  const sniffed = sniffFormat(bytes, name);
  if ('refusal' in sniffed) return sniffed;
  if (sniffed.format !== 'tab') return { refusal: NOT_READ[sniffed.format] };
  return tabFile(sniffed.text, sniffed.guessedEncoding);
}

function tabFile(text: string, guessedEncoding: string | null): NotationFile {
  const { title } = readTypedTab(text.slice(0, 2000), { meter: '2/4' });
  return {
    format: 'tab',
    guessedEncoding,
    entries: [{ title, number: null, line: 1 }],
    warnings: [],
    read: (index, { meter }) =>
      index === 0 ? { reading: readTypedTab(text, { meter }), voices: [] } : noSuchTune(),
  };
}

function noSuchTune(): EntryRead {
  return { reading: refusedReading('There is no such tune in this source.'), voices: [] };
}
