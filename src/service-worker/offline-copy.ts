import { PrecacheController } from 'workbox-precaching';
import type { MendAnswer, StepBackAnswer } from '../lib/offline/messages';
import {
  afterTakeOver,
  forgetOlder,
  readVersions,
  servedOf,
  writeVersions,
  type Versions,
} from '../lib/offline/versions';

declare const self: ServiceWorkerGlobalScope;

/** A file of this version: its address on the server, and the hash of its bytes as W3C Subresource Integrity writes it. */
export interface ListedFile {
  url: string;
  integrity: string;
}

const NOT_FOUND = '/404.html';
/**
 * A host may have let the browser keep a page of its own trouble in the place of a file, for as long as the file itself:
 * every try would find that again. What is kept and right is not sent again.
 */
const ASK_SERVER = {
  requestWillFetch: ({ request }: { request: Request }) =>
    Promise.resolve(new Request(request, { cache: 'no-cache' })),
};
/** Named by a hash of what is in them, so the same name is the same file in every version. */
const IMMUTABLE = '/_app/immutable/';

/**
 * One version of the app on this device, in a cache of its own: whole, or not used. Workbox fetches it and holds every
 * byte to the list of the build; which version is served is decided here.
 */
export class OfflineCopy {
  readonly #name: string;
  readonly #files: readonly ListedFile[];
  readonly #precache: PrecacheController;
  /** Name of the cache that is served; read anew when the worker wakes, or after it changed. */
  #served: Promise<string> | null = null;

  /** @param name of the cache */
  constructor(name: string, files: readonly ListedFile[]) {
    this.#name = name;
    this.#files = files;
    this.#precache = new PrecacheController({ cacheName: name, plugins: [ASK_SERVER] });
    // a cache is of one version, so its files need no revision of their own
    this.#precache.addToCacheList(files.map((file) => ({ ...file, revision: null })));
  }

  /**
   * Fetches what is not there yet. Rejects unless every byte of every file is as the build wrote it; what did arrive
   * stays for the next try, unless the device is full: then the book needs the room more.
   */
  async install(event: ExtendableEvent): Promise<void> {
    try {
      await this.#precache.install(event);
    } catch (error) {
      if (error instanceof DOMException && error.name === 'QuotaExceededError') await this.#giveRoom();
      throw error;
    }
  }

  /** This version is the one that is served from now on. */
  async takeOver(): Promise<void> {
    const versions = afterTakeOver(await readVersions(), this.#name);
    await this.#write(versions);
    // the cache of a version that is being installed must not be swept away under it
    const { installing, waiting } = self.registration;
    if (!installing && !waiting) await forgetOlder(versions);
  }

  /** Every answer is of one version; what that version does not have comes from the network. */
  async answer(request: Request): Promise<Response> {
    const { pathname } = new URL(request.url);
    const cache = await caches.open(await this.#servedName());
    const kept = await findIn(cache, pathname, request.mode === 'navigate');
    if (kept) return kept;
    // a tab that was open before the last update asks for the files of its own version
    const ofOther = pathname.startsWith(IMMUTABLE) ? await caches.match(pathname) : undefined;
    return ofOther ?? fetch(request);
  }

  async stepBack(): Promise<StepBackAnswer> {
    const versions = await readVersions();
    if (!versions?.previous || !(await caches.has(versions.previous))) return false;
    await this.#write({ ...versions, isSteppedBack: true });
    return true;
  }

  /** Fetches anew what is missing or not as the build wrote it. */
  async mend(): Promise<MendAnswer> {
    const cache = await caches.open(this.#name);
    let mended = 0;
    try {
      for (const { url, integrity } of this.#files) {
        const kept = await cache.match(url);
        if (kept && (await integrityOf(kept)) === integrity) continue;
        await cache.add(new Request(url, { integrity, cache: 'reload' }));
        mended++;
      }
    } catch {
      // no network, or the server has another version by now: the caller says so
      return null;
    }
    return mended;
  }

  /** Half a copy that nothing is served from goes again. */
  async #giveRoom(): Promise<void> {
    const versions = await readVersions();
    if (versions?.current !== this.#name && versions?.previous !== this.#name)
      await caches.delete(this.#name);
  }

  async #write(versions: Versions): Promise<void> {
    await writeVersions(versions);
    this.#served = null;
  }

  #servedName(): Promise<string> {
    this.#served ??= readVersions().then((versions) =>
      versions?.current === this.#name ? servedOf(versions) : this.#name,
    );
    return this.#served;
  }
}

/** The screen or file of a path; for a page also without its last slash, and the app's own words for no such screen. */
async function findIn(cache: Cache, pathname: string, isPage: boolean): Promise<Response | undefined> {
  const plain = pathname.replace(/\/index\.html$/, '/');
  const kept = await cache.match(plain);
  if (kept || !isPage) return kept;
  return (await cache.match(`${plain}/`)) ?? cache.match(NOT_FOUND);
}

async function integrityOf(response: Response): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await response.arrayBuffer());
  return `sha256-${btoa(String.fromCharCode(...new Uint8Array(digest)))}`;
}
