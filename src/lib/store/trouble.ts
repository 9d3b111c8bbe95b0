/**
 * - `full`: the device or the browser's share of it is full;
 * - `refused`: the browser keeps nothing here (a private window, storage switched off);
 * - `blocked`: another tab stands in the way, or has taken over;
 * - `newer`: the book was written by a newer version of the app, and is left alone;
 * - `damaged`: what was handed in or found is not a record.
 */
export type TroubleKind = 'full' | 'refused' | 'blocked' | 'newer' | 'damaged';

/** Storage trouble in plain sentences: `message` says what failed and what to do, `safe` what is safe. */
export class StoreTrouble extends Error {
  override readonly name = 'StoreTrouble';

  constructor(
    readonly kind: TroubleKind,
    message: string,
    readonly safe: string | undefined = undefined,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

const SAFE = 'Everything that was saved before is safe.';

/** Any error of IndexedDB or of the file system as a StoreTrouble; other errors as they are. */
export function troubleOf(error: unknown): unknown {
  if (error instanceof StoreTrouble || !(error instanceof Error)) return error;
  // the outer name is often AbortError; the cause is inside
  const names = [error.name, innerName(error)];
  const is = (...wanted: string[]): boolean => wanted.some((name) => names.includes(name));
  const because = { cause: error };
  if (is('QuotaExceededError')) {
    const full =
      'There is no room left on this device, so this was not saved. Free some space and try again.';
    return new StoreTrouble('full', full, SAFE, because);
  }
  if (is('DatabaseClosedError')) {
    const closed = 'Another tab has taken over the book, so this was not saved. Reload this page.';
    return new StoreTrouble('blocked', closed, SAFE, because);
  }
  // Chromium says UnknownError of storage that is switched off as of storage that is broken
  if (
    is(
      'MissingAPIError',
      'InvalidStateError',
      'SecurityError',
      'UnknownError',
      'NotAllowedError',
      'OpenFailedError',
    )
  ) {
    const refused =
      'This browser does not let Phrasewright keep its book: the window may be private, storage switched off for this site, or the storage damaged. Allow storage or use an ordinary window, and restart the browser if that does not help.';
    return new StoreTrouble('refused', refused, 'Nothing was changed.', because);
  }
  return error;
}

function innerName(error: Error): string {
  const { inner } = error as { inner?: unknown };
  return inner instanceof Error || inner instanceof DOMException ? inner.name : '';
}

/** The outcome of `work`, with its errors turned by `troubleOf`. */
export async function inPlainWords<T>(work: () => PromiseLike<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw troubleOf(error);
  }
}
