/**
 * What another app hands to this one by the system's share sheet: the service worker takes it, keeps it in a cache of its
 * own, and sends the browser on to the screen that reads it. It is read once.
 */
const CACHE = 'phrasewright-handed-in';
const ADDRESS = '/phrasewright-handed-in';
const NAME = 'X-File-Name';
const TYPE = 'Content-Type';

/** Where the manifest has the system post to, and its fields (W3C Web Share Target). */
export const SHARE_TARGET = '/share/';
/** In the address of a screen: something waits for it. */
export const HANDED_IN = 'handed-in';

/** The answer to the post of the share sheet: on to the screen for it. Never rejects. */
export async function takeShared(request: Request): Promise<Response> {
  const form = await request.formData().catch(() => new FormData());
  // a form without a file sends an empty one
  const [file] = form.getAll('file').filter((part) => part instanceof File && part.size > 0) as File[];
  const text = ['title', 'text', 'url']
    .map((name) => form.get(name))
    .filter((part) => typeof part === 'string');
  const link = text.map((part) => /\/take\/(#\S+)/.exec(part)?.[1]).find((hash) => hash !== undefined);
  if (!file && link) return seeOther(`/take/${link}`);
  try {
    const headers = file ? { [NAME]: encodeURIComponent(file.name), [TYPE]: file.type } : undefined;
    const cache = await caches.open(CACHE);
    await cache.put(ADDRESS, new Response(file ?? longest(text), headers ? { headers } : {}));
  } catch {
    // no room, or caches are refused: the screen finds nothing, and says so
  }
  const isBackup = file !== undefined && /\.(json|gz)$/i.test(file.name);
  return seeOther(isBackup ? `/settings/?${HANDED_IN}#backup` : `/add/?${HANDED_IN}`);
}

/** What waits, a file or a text; `null` for nothing. It is gone then. Never rejects. */
export async function readHandedIn(): Promise<File | string | null> {
  try {
    const cache = await caches.open(CACHE);
    const kept = await cache.match(ADDRESS);
    await caches.delete(CACHE);
    if (!kept) return null;
    const name = kept.headers.get(NAME);
    if (name === null) return await kept.text();
    return new File([await kept.blob()], decodeURIComponent(name), { type: kept.headers.get(TYPE) ?? '' });
  } catch {
    return null;
  }
}

/** Of a shared page the title is short, and the notation is in the text. */
const longest = (texts: readonly string[]): string =>
  texts.reduce((longer, text) => (text.length > longer.length ? text : longer), '');

/** RFC 9110 section 15.4.4: go on by GET. */
const seeOther = (address: string): Response =>
  new Response(null, { status: 303, headers: { Location: address } });
