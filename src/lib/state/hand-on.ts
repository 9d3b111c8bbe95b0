import { emptyBook } from '$lib/core/book/book';
import type { TuneLinkReading } from '$lib/core/book/tune-link';
import type { Tune } from '$lib/core/tune/tune';
import { app } from './app.svelte';
import { nextId } from './ids';

/** Beyond this many letters the squares of a code are too small for the camera of a phone. */
const CODE_LETTERS_MAX = 1800;

export interface TuneLink {
  address: string;
  /** The same as a QR code: rows of squares, true where dark. `null` when the link is too long for one. */
  code: boolean[][] | null;
}

/** A tune as a link that carries it whole, after the `#`, which no browser sends to a server. */
export async function linkTune(tune: Tune): Promise<TuneLink> {
  const { handedOn, writeTuneLink } = await import('$lib/core/book/tune-link');
  const address = `${location.origin}/take/#${writeTuneLink(handedOn(tune, nextId))}`;
  if (address.length > CODE_LETTERS_MAX) return { address, code: null };
  const { default: encodeQR } = await import('qr');
  return { address, code: encodeQR(address, 'raw', { ecc: 'low', border: 4 }) };
}

/** The tune of a link, or of the letters after its `#`. Rejects never; the damage is a sentence. */
export async function readLinkedTune(link: string): Promise<TuneLinkReading> {
  const { readTuneLink } = await import('$lib/core/book/tune-link');
  return readTuneLink(link.slice(link.indexOf('#') + 1).trim());
}

/** Merges a tune that was handed on into the book. One that was deleted or put away here comes back. */
export async function takeTune(tune: Tune): Promise<void> {
  await app.mergeIn({ ...emptyBook(), tunes: [tune] });
  const kept = app.tune(tune.id);
  if (kept && (kept.deletedAt !== null || kept.archived)) await app.bringBack({ ...kept, archived: false });
}
