/**
 * Each version of the app has a cache of its own, which is complete before the version is ever used. The version before
 * stays beside it: a tab that still runs it finds its files, and it can be gone back to.
 */
const STATE_CACHE = 'phrasewright-versions';
const VERSION = 'phrasewright-version-';
const STATE_URL = '/phrasewright-versions.json';

/** Names of caches. */
export interface Versions {
  /** The version that took over last. */
  current: string;
  /** The one that was served before it, or `null` for a first version. */
  previous: string | null;
  /** The learner went back: `previous` is served until a newer version than `current` takes over. */
  isSteppedBack: boolean;
}

/** @param version any text that no other version has */
export const cacheOf = (version: string): string => VERSION + version;

/** `null` before the first version has taken over, and where caches are refused. */
export async function readVersions(): Promise<Versions | null> {
  try {
    const kept = await (await caches.open(STATE_CACHE)).match(STATE_URL);
    return kept ? ((await kept.json()) as Versions) : null;
  } catch {
    // no caches in this browser, or what is there cannot be read: as if nothing were kept
    return null;
  }
}

export async function writeVersions(versions: Versions): Promise<void> {
  const cache = await caches.open(STATE_CACHE);
  await cache.put(STATE_URL, new Response(JSON.stringify(versions)));
}

/** The version whose files are to be served. */
export function servedOf(versions: Versions): string {
  return versions.isSteppedBack && versions.previous !== null ? versions.previous : versions.current;
}

/** What is so once a version has taken over: the one that was served until now is the one before. */
export function afterTakeOver(versions: Versions | null, current: string): Versions {
  if (!versions) return { current, previous: null, isSteppedBack: false };
  // the same version again, registered anew
  if (versions.current === current) return versions;
  const served = servedOf(versions);
  return { current, previous: served === current ? versions.current : served, isSteppedBack: false };
}

/** Deletes the caches of all versions but the present one and the one before. */
export async function forgetOlder({ current, previous }: Versions): Promise<void> {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(VERSION) && name !== current && name !== previous);
  await Promise.all(older.map((name) => caches.delete(name)));
}
