import type { Score } from '$lib/core/notation/score';
import type { Id, Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/share';
import { handOut } from './hand-out-file';

type OutFormat = 'musicxml' | 'abc' | 'tab' | 'midi';

const NAME_LETTERS_MAX = 80;

interface Writer {
  ending: string;
  type: string;
  /** Loads the writer when it is asked for. */
  load: () => Promise<Write>;
}

/** One layer of a tune in a format, or a sentence that says why there is nothing to write. */
type Write = (tune: Tune, layerId: Id) => Written;
type Written = { content: string | Uint8Array } | { refusal: string };

/** Types as registered with IANA; MusicXML's by the W3C (from memory). */
const WRITERS: Record<OutFormat, Writer> = {
  musicxml: {
    ending: '.musicxml',
    type: 'application/vnd.recordare.musicxml+xml',
    load: () =>
      ofScore(async () => (await import('$lib/core/notation/musicxml/write-musicxml')).writeMusicXml),
  },
  abc: {
    ending: '.abc',
    type: 'text/vnd.abc',
    load: () => ofScore(async () => (await import('$lib/core/notation/abc/write-abc')).writeAbc),
  },
  tab: {
    ending: '.txt',
    type: 'text/plain',
    load: async () => {
      const { writeTypedTab } = await import('$lib/core/notation/write-typed-tab');
      return (tune, layerId) => {
        const written = writeTypedTab(tune, layerId);
        return 'refusal' in written ? written : { content: written.text };
      };
    },
  },
  midi: {
    ending: '.mid',
    type: 'audio/midi',
    load: () => ofScore(async () => (await import('$lib/core/notation/midi/write-midi')).writeMidi),
  },
};

async function ofScore(load: () => Promise<(score: Score) => string | Uint8Array>): Promise<Write> {
  const [{ scoreOfTune }, write] = await Promise.all([import('$lib/core/notation/score-of-tune'), load()]);
  return (tune, layerId) => ({ content: write(scoreOfTune(tune, layerId)) });
}

/** The formats in the order in which the learner chooses among them. */
export const OUT_FORMATS: readonly OutFormat[] = ['musicxml', 'abc', 'tab', 'midi'];

/**
 * One layer of a tune as a file, through the share sheet where there is one that takes it, else as a download. Resolves
 * with what became of it, in a sentence; never rejects.
 */
export async function handOutNotation(tune: Tune, layerId: Id, format: OutFormat): Promise<string> {
  try {
    const { ending, type, load } = WRITERS[format];
    const written = (await load())(tune, layerId);
    if ('refusal' in written) return written.refusal;
    const content = typeof written.content === 'string' ? written.content : new Uint8Array(written.content);
    return await handOut(new File([content], notationName(tune.title) + ending, { type }));
  } catch {
    return say.notMade;
  }
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
