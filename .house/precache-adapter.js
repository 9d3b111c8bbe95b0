import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import adapter from '@sveltejs/adapter-static';
import { build } from 'vite';
import { injectManifest } from 'workbox-build';
import { headersFile, IMMUTABLE, META_POLICY } from './headers.js';
import { ROOT } from './prepare.js';

/** Larger than any file of the app; a bigger one would be left out of the offline copy, which is an error here. */
const LARGEST_FILE_BYTES = 20 * 1024 * 1024;

/** Not part of the offline copy: the worker is kept by the browser, and the headers are for the host. */
const NOT_COPIED = ['service-worker.js', '_headers'];

/**
 * The static adapter, after which the pages are made to stand under the app's policy, and the service worker is
 * told every built file. Kit's own lists leave out workers and worklets, and an app without its click is not offline.
 * @param {{ out: string }} options folder of the build
 * @returns {import('@sveltejs/kit').Adapter}
 */
export function precacheAdapter({ out }) {
  const inner = adapter({ pages: out, fallback: '404.html' });
  return {
    name: 'precache-adapter',
    async adapt(builder) {
      await inner.adapt(builder);
      const folder = path.resolve(out);
      const watch = await startWatch();
      for (const file of filesIn(folder).filter((name) => name.endsWith('.html'))) {
        moveScriptOut(folder, file, watch);
      }
      writeFileSync(path.join(folder, '_headers'), headersFile());
      const { count, size } = await listFiles(folder);
      builder.log.success(`Offline copy: ${String(count)} files, ${String(Math.round(size / 1024))} kB`);
    },
  };
}

/** Paths of all files in a folder, with `/`, sorted. @param {string} folder */
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => statSync(path.join(folder, file)).isFile())
    .map((file) => file.split(path.sep).join('/'))
    .sort();
}

/** The program that notices when the app does not start, as one script. @returns {Promise<string>} */
async function startWatch() {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      lib: {
        entry: path.join(ROOT, 'src/lib/offline/start-watch.ts'),
        formats: ['iife'],
        name: 'startWatch',
      },
    },
  });
  const [first] = Array.isArray(built) ? built : [];
  const chunk = first?.output[0];
  if (chunk?.type !== 'chunk') throw new Error('src/lib/offline/start-watch.ts gave no script.');
  return chunk.code;
}

/**
 * Puts the script that kit writes into each page into a file, after the watch, so that the policy needs to allow no
 * script in a page; and writes the policy into the page.
 * @param {string} folder
 * @param {string} file
 * @param {string} watch
 */
function moveScriptOut(folder, file, watch) {
  const page = readFileSync(path.join(folder, file), 'utf8');
  const inside = [...page.matchAll(/<script>([\s\S]*?)<\/script>/g)];
  const metas = [...page.matchAll(/<meta http-equiv="content-security-policy" content="[^"]*">/g)];
  const [script, meta] = [inside[0], metas[0]];
  if (!script || !meta || inside.length > 1 || metas.length > 1) {
    throw new Error(
      `${file} should have one script and one policy in it, saw ${String(inside.length)} and ${String(metas.length)}.`,
    );
  }
  const code = `${watch}\n${(script[1] ?? '').trim()}\n`;
  const address = `${IMMUTABLE}entry/begin.${hashOf(code, 'hex').slice(0, 8)}.js`;
  mkdirSync(path.dirname(path.join(folder, address)), { recursive: true });
  writeFileSync(path.join(folder, address), code);
  writeFileSync(
    path.join(folder, file),
    page
      .replace(meta[0], `<meta http-equiv="content-security-policy" content="${META_POLICY}">`)
      .replace(script[0], `<script src="${address}"></script>`),
  );
}

/**
 * Writes into the service worker which files there are, with the hash of each.
 * @param {string} folder
 */
async function listFiles(folder) {
  const file = path.join(folder, 'service-worker.js');
  const { count, size, warnings } = await injectManifest({
    swSrc: file,
    swDest: file,
    globDirectory: folder,
    globPatterns: ['**/*'],
    globIgnores: NOT_COPIED,
    maximumFileSizeToCacheInBytes: LARGEST_FILE_BYTES,
    manifestTransforms: [
      (entries) => ({
        manifest: entries.map(({ url, size: bytes }) => ({
          // the address that every static host answers without a redirect
          url: `/${url}`.replace(/\/index\.html$/, '/'),
          revision: null,
          integrity: `sha256-${hashOf(readFileSync(path.join(folder, url)), 'base64')}`,
          size: bytes,
        })),
        warnings: [],
      }),
    ],
  });
  if (warnings.length > 0) throw new Error(`The offline copy is not complete: ${warnings.join(' ')}`);
  return { count, size };
}

/** @param {string | Buffer} content @param {'hex' | 'base64'} encoding */
function hashOf(content, encoding) {
  return createHash('sha256').update(content).digest(encoding);
}
