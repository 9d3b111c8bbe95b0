import type { Id, Tune } from '$lib/core/tune/tune';
import { canSend, download, send } from './hand-out-file';

type OutFormat = 'musicxml' | 'abc' | 'midi';

const NAME_LETTERS_MAX = 80;

interface Writer {
  ending: string;
  type: string;
  write: (tune: Tune, layerId: Id) => Promise<string | Uint8Array<ArrayBuffer>>;
}

/** Each writer is loaded when it is asked for. Types as registered with IANA; MusicXML's by the W3C (from memory). */
const WRITERS: Record<OutFormat, Writer> = {
  musicxml: {
    ending: '.musicxml',
    type: 'application/vnd.recordare.musicxml+xml',
    write: async (tune, layerId) => {
      const [{ scoreOfTune }, { writeMusicXml }] = await Promise.all([
        import('$lib/core/notation/score-of-tune'),
        import('$lib/core/notation/musicxml/write-musicxml'),
      ]);
      return writeMusicXml(scoreOfTune(tune, layerId));
    },
  },
  abc: {
    ending: '.abc',
    type: 'text/vnd.abc',
    write: async (tune, layerId) => {
      const [{ scoreOfTune }, { writeAbc }] = await Promise.all([
        import('$lib/core/notation/score-of-tune'),
        import('$lib/core/notation/abc/write-abc'),
      ]);
      return writeAbc(scoreOfTune(tune, layerId));
    },
  },
  midi: {
    ending: '.mid',
    type: 'audio/midi',
    write: async (tune, layerId) => {
      const [{ scoreOfTune }, { writeMidi }] = await Promise.all([
        import('$lib/core/notation/score-of-tune'),
        import('$lib/core/notation/midi/write-midi'),
      ]);
      return new Uint8Array(writeMidi(scoreOfTune(tune, layerId)));
    },
  },
};

/** The formats as the learner chooses among them. */
export const OUT_FORMATS = [
  { format: 'musicxml', name: 'MusicXML', what: 'notes and tab, for a score program' },
  { format: 'abc', name: 'ABC', what: 'the melody as text' },
  { format: 'midi', name: 'MIDI', what: 'the sound as it is played' },
] as const satisfies readonly { format: OutFormat; name: string; what: string }[];

const WHAT_BECAME = {
  sent: 'Handed on.',
  left: 'Not sent.',
  saved: 'Saved as a file.',
} as const;

/**
 * One layer of a tune as a file, through the share sheet where there is one that takes it, else as a download. Resolves
 * with what became of it, in a sentence; never rejects.
 */
export async function handOutNotation(tune: Tune, layerId: Id, format: OutFormat): Promise<string> {
  try {
    return WHAT_BECAME[await handOut(tune, layerId, format)];
  } catch {
    return 'The file could not be made. The tune is safe; reload the page and try again.';
  }
}

async function handOut(tune: Tune, layerId: Id, format: OutFormat): ReturnType<typeof send> {
  const { ending, type, write } = WRITERS[format];
  const file = new File([await write(tune, layerId)], notationName(tune.title) + ending, { type });
  if (canSend(file)) return send(file);
  download(file);
  return 'saved';
}

/** A title as a file's name without its ending: `soldiers-joy`. Letters of any script stay. */
export function notationName(title: string): string {
  const bare = title
    .normalize('NFC')
    .toLowerCase()
    .replace(/['’]/g, '')
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-');
  const cut = [...bare]
    .slice(0, NAME_LETTERS_MAX)
    .join('')
    .replace(/^-+|-+$/g, '');
  return cut === '' ? 'tune' : cut;
}
