import { say } from '$lib/texts/book';

/**
 * - `full`: the device or the browser's share of it is full;
 * - `refused`: the browser keeps nothing here (a private window, storage switched off);
 * - `blocked`: another tab stands in the way, or has taken over;
 * - `newer`: the book was written by a newer version of the app, and is left alone;
 * - `damaged`: what was handed in or found is not a record;
 * - `failed`: the browser could not read or write, for a reason of its own.
 */
export type TroubleKind = 'full' | 'refused' | 'blocked' | 'newer' | 'damaged' | 'failed';

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

/** Any error of IndexedDB or of the file system as a StoreTrouble; other errors as they are. */
export function troubleOf(error: unknown): unknown {
  if (error instanceof StoreTrouble || !(error instanceof Error)) return error;
  const is = (...wanted: string[]): boolean => hasName(error, ...wanted);
  const because = { cause: error };
  if (is('QuotaExceededError')) return new StoreTrouble('full', say.full, say.savedIsSafe, because);
  if (is('DatabaseClosedError')) return new StoreTrouble('blocked', say.takenOver, say.savedIsSafe, because);
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
    return new StoreTrouble('refused', say.refused, say.unchanged, because);
  }
  if (is('AbortError', 'TimeoutError', 'NotReadableError', 'NotFoundError', 'DataError'))
    return new StoreTrouble('failed', say.failed(error.message), say.savedIsSafe, because);
  return error;
}

/** Whether an error goes by one of these names: its own is often AbortError, and the cause is inside. */
export function hasName(error: unknown, ...wanted: string[]): boolean {
  const { name, inner } = (error ?? {}) as { name?: unknown; inner?: { name?: unknown } | null };
  return wanted.some((one) => one === name || one === inner?.name);
}

/** The outcome of `work`, with its errors turned by `troubleOf`. */
export async function inPlainWords<T>(work: () => PromiseLike<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw troubleOf(error);
  }
}
