/**
 * The headers of every answer, said once: `npm start` and the tests send them, the build writes them down in
 * `_headers`, and its pages carry the policy in a `<meta>` as well, for a host that sends nothing.
 */

/** The one style attribute of kit itself: its live region for screen readers. */
const LIVE_REGION_STYLE = "'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='";

/**
 * What a page and a worker may load and do. Nothing is allowed but what is named; no script, style or handler
 * stands in a page itself (the build puts kit's start into a file), so no `unsafe-inline`, nonce or hash of a script
 * is needed and the text is the same for every version.
 * @type {Readonly<Record<string, readonly string[]>>}
 */
const POLICY = {
  'default-src': ["'none'"],
  'script-src': ["'self'"],
  'worker-src': ["'self'"],
  'style-src': ["'self'"],
  'style-src-attr': ["'unsafe-hashes'", LIVE_REGION_STYLE],
  'img-src': ["'self'"],
  'media-src': ["'self'"],
  'manifest-src': ["'self'"],
  'connect-src': ["'self'"],
  'base-uri': ["'none'"],
  'form-action': ["'none'"],
  // text becomes markup or a script's address in two places only: Svelte's templates, and src/lib/script-urls.ts
  'require-trusted-types-for': ["'script'"],
  'trusted-types': ['svelte-trusted-html', 'phrasewright-script-urls'],
};

/** Directives that a browser heeds in a header alone (CSP level 3, section 3.3). */
const ONLY_AS_HEADER = { 'frame-ancestors': ["'none'"] };

/** @param {Readonly<Record<string, readonly string[]>>} directives */
const asText = (directives) =>
  Object.entries(directives)
    .map(([name, values]) => [name, ...values].join(' '))
    .join('; ');

/** The policy as a `<meta>` can say it. */
export const META_POLICY = asText(POLICY);

/** Features that the app uses: sound, the microphone, the lit screen, handing a tune on, pedals. */
const USED = [
  'autoplay',
  'clipboard-write',
  'gamepad',
  'microphone',
  'midi',
  'screen-wake-lock',
  'web-share',
];

/** Features with a risk for who is watched or charged; all that Chromium 156 knows by name. */
const REFUSED = [
  'accelerometer',
  'bluetooth',
  'camera',
  'display-capture',
  'encrypted-media',
  'fullscreen',
  'geolocation',
  'gyroscope',
  'hid',
  'idle-detection',
  'local-fonts',
  'magnetometer',
  'otp-credentials',
  'payment',
  'picture-in-picture',
  'publickey-credentials-create',
  'publickey-credentials-get',
  'serial',
  'usb',
  'window-management',
  'xr-spatial-tracking',
];

/** Sent with every file. @type {Readonly<Record<string, string>>} */
export const HEADERS = {
  'Content-Security-Policy': asText({ ...POLICY, ...ONLY_AS_HEADER }),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': [
    ...USED.map((name) => `${name}=(self)`),
    ...REFUSED.map((name) => `${name}=()`),
  ].join(', '),
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

/** Files whose name holds a hash of what is in them: they never change. */
export const IMMUTABLE = '/_app/immutable/';

/** How long a browser may keep a file without asking. @param {string} pathname of the file */
export function cacheControl(pathname) {
  return pathname.startsWith(IMMUTABLE) ? 'public, max-age=31536000, immutable' : 'no-cache';
}

/** The same as the file that some static hosts read from the folder they serve. */
export function headersFile() {
  const all = Object.entries(HEADERS).map(([name, value]) => `  ${name}: ${value}`);
  const always = `  Cache-Control: ${cacheControl('/')}`;
  const kept = ['  ! Cache-Control', `  Cache-Control: ${cacheControl(IMMUTABLE)}`];
  return ['/*', ...all, always, `${IMMUTABLE}*`, ...kept, ''].join('\n');
}
