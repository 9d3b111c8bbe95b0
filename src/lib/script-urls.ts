/** What a browser with Trusted Types gives; typed here because lib.dom does not know it yet. */
interface PolicyFactory {
  createPolicy(
    name: string,
    rules: { createScriptURL(url: string): string },
  ): {
    createScriptURL(url: string): string;
  };
}

/** Of this origin, and a file: a blob: address has the page's origin as well. */
function ownFile(url: string): string {
  const { protocol, origin } = new URL(url, location.href);
  if (!protocol.startsWith('http') || origin !== location.origin) {
    throw new TypeError(`A script may only come from this origin, saw ${url}`);
  }
  return url;
}

const { trustedTypes } = globalThis as { trustedTypes?: PolicyFactory };

/** The app's one policy; its name stands in the content security policy (.house/headers.js). */
const policy = trustedTypes?.createPolicy('phrasewright-script-urls', { createScriptURL: ownFile });

/**
 * The address of a worker or of the service worker, as the content security policy lets it be used. Throws TypeError
 * for one of another origin.
 */
export function scriptUrl(url: string): string {
  return policy ? policy.createScriptURL(url) : ownFile(url);
}
