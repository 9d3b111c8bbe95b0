import { say } from '../../texts/reading';
import { TUNES_MAX } from './abc/abc-source';
import { openAbc } from './abc/read-abc';
import { readMidi } from './midi/read-midi';
import { readMxl } from './musicxml/mxl';
import { readMusicXml } from './musicxml/read-musicxml';
import {
  NOTATION_BYTES_MAX,
  type EntryOptions,
  type EntryWithScore,
  type NotationFile,
} from './notation-file';
import { refusedReading, type ReadingWarning } from './reading';
import type { Score, ScoresRead } from './score';
import { readingOfScore } from './score-reading';
import { sniffFormat } from './sniff-format';
import { readTypedTab } from './typed-tab';

/**
 * Recognises a file (or pasted text as bytes, with an empty name) and lists its tunes; of a tunebook cheaply, however
 * long. Gives a sentence instead when there is nothing in it to read. Never throws, whatever the bytes.
 */
export function readNotationFile(bytes: Uint8Array, name: string): NotationFile | { refusal: string } {
  if (bytes.length > NOTATION_BYTES_MAX) {
    return { refusal: say.tooLarge(NOTATION_BYTES_MAX / 1_000_000) };
  }
  const sniffed = sniffFormat(bytes, name);
  if ('refusal' in sniffed) return sniffed;
  switch (sniffed.format) {
    case 'midi':
      return scoresFile('midi', readMidi(bytes), null);
    case 'mxl':
      return scoresFile('mxl', readMxl(bytes), null);
    case 'musicxml':
      return scoresFile('musicxml', readMusicXml(sniffed.text), sniffed.guessedEncoding);
    case 'abc':
      return abcFile(sniffed.text, sniffed.guessedEncoding);
    case 'tab':
      return tabFile(sniffed.text, sniffed.guessedEncoding);
  }
}

function scoresFile(
  format: NotationFile['format'],
  { scores, warnings }: ScoresRead,
  guessedEncoding: string | null,
): NotationFile | { refusal: string } {
  if (scores.length === 0) return { refusal: firstSentence(warnings) };
  return {
    format,
    guessedEncoding,
    entries: scores.map(({ title, number }) => ({ title, number, line: 1 })),
    warnings,
    read: (index, options) => entryOf(scores[index], options),
  };
}

function abcFile(text: string, guessedEncoding: string | null): NotationFile | { refusal: string } {
  const { tunes, read } = openAbc(text);
  if (tunes.length === 0) return { refusal: say.noAbcTune };
  return {
    format: 'abc',
    guessedEncoding,
    entries: tunes.map(({ title, number, line }) => ({ title, number, line })),
    warnings: tunes.length < TUNES_MAX ? [] : [beyondTheMost(tunes.at(-1)?.line ?? 1)],
    read: (index, options) => entryOf(read(index), options),
  };
}

function beyondTheMost(line: number): ReadingWarning {
  return { line, column: 1, message: say.at(line, 1, say.lastTune(TUNES_MAX)) };
}

function tabFile(text: string, guessedEncoding: string | null): NotationFile {
  const { title } = readTypedTab(text.slice(0, 2000), { meter: '2/4' });
  return {
    format: 'tab',
    guessedEncoding,
    entries: [{ title, number: null, line: 1 }],
    warnings: [],
    read: (index, options) =>
      index === 0 ? { reading: readTypedTab(text, options), voices: [], score: null } : noSuchTune(),
  };
}

function entryOf(score: Score | null | undefined, { voice }: EntryOptions): EntryWithScore {
  if (!score) return noSuchTune();
  const chosen = voice < score.voices.length ? voice : 0;
  return {
    reading: readingOfScore(score, chosen),
    voices: score.voices.map(({ name }) => name),
    score,
  };
}

function noSuchTune(): EntryWithScore {
  return { reading: refusedReading(say.noSuchTune), voices: [], score: null };
}

function firstSentence(warnings: readonly ReadingWarning[]): string {
  return warnings[0]?.message ?? say.nothing;
}
