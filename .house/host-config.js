/**
 * `npm run headers -- nginx`: what makes a host of one's own send what `npm start` sends, to be put into its configuration.
 * Hosts that read a `_headers` file find it in the build.
 */
import { pathToFileURL } from 'node:url';
import { cacheControl, HEADERS, IMMUTABLE } from './headers.js';

const CACHE = 'Cache-Control';

/** @param {string} pathname @param {(name: string, value: string) => string} line */
const lines = (pathname, line) =>
  Object.entries({ ...HEADERS, [CACHE]: cacheControl(pathname) }).map(([name, value]) => line(name, value));

/** @type {Readonly<Record<string, () => string[]>>} */
const WRITERS = {
  // a location with an `add_header` of its own inherits none: each says all
  nginx: () => [
    '# inside server { root …/build; }',
    'error_page 404 /404.html;',
    ...['/', IMMUTABLE].flatMap((location) => [
      `location ${location} {`,
      '  try_files $uri $uri/index.html =404;',
      ...lines(location, (name, value) => `  add_header ${name} "${value}" always;`),
      '}',
    ]),
  ],
  apache: () => [
    '# inside <VirtualHost> with DocumentRoot …/build; needs mod_headers',
    'ErrorDocument 404 /404.html',
    ...lines('/', (name, value) => `Header always set ${name} "${value}"`),
    `<Location ${IMMUTABLE}>`,
    `  Header always set ${CACHE} "${cacheControl(IMMUTABLE)}"`,
    '</Location>',
  ],
  caddy: () => [
    '# inside the block of the site, with root * …/build and file_server',
    // of two that fit, Caddy lets the less specific one have the last word: none fits twice
    `@kept path ${IMMUTABLE}*`,
    `@asked not path ${IMMUTABLE}*`,
    ...[IMMUTABLE, '/'].flatMap((pathname) => [
      `header ${pathname === '/' ? '@asked' : '@kept'} {`,
      ...lines(pathname, (name, value) => `  ${name} "${value}"`),
      '}',
    ]),
    'handle_errors {',
    '  rewrite * /404.html',
    '  file_server',
    '}',
  ],
};

export const HOSTS = Object.keys(WRITERS);

/** @param {string} host one of `HOSTS` @returns {string | null} `null` for any other */
export function hostConfig(host) {
  const write = WRITERS[host];
  return write ? `${write().join('\n')}\n` : null;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const config = hostConfig(process.argv[2] ?? '');
  if (config === null) {
    console.error(`Say for which host: ${HOSTS.join(', ')}.`);
    process.exitCode = 2;
  } else process.stdout.write(config);
}
