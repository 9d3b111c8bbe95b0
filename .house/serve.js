import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import sirv from 'sirv';
import { cacheControl, HEADERS } from './headers.js';

/**
 * Serves a built app and nothing else, on this machine only.
 * @param {{ folder: string, port: number, orNext?: boolean, headers?: Readonly<Record<string, string>> }} options port 0
 *   takes any free one; `orNext` tries the following ports when the first is taken; `headers` in the place of the app's
 * @returns {Promise<{ url: string, close: () => Promise<void> }>} url without a slash at its end
 */
export async function serveApp({ folder, port, orNext = false, headers = HEADERS }) {
  const notFound = readFileSync(path.join(folder, '404.html'));
  const files = sirv(folder, {
    etag: true,
    setHeaders(response, pathname) {
      response.setHeader('Cache-Control', cacheControl(pathname));
    },
  });
  const server = createServer((request, response) => {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    files(request, response, () => {
      response.writeHead(404, { 'Content-Type': 'text/html; charset=utf-8', 'Cache-Control': 'no-cache' });
      response.end(notFound);
    });
  });
  const taken = await listen(server, port, orNext ? 20 : 1);
  return {
    url: `http://localhost:${String(taken)}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => {
          resolve();
        });
        server.closeAllConnections();
      }),
  };
}

/**
 * @param {import('node:http').Server} server
 * @param {number} port
 * @param {number} tries
 * @returns {Promise<number>} the port that was free
 */
async function listen(server, port, tries) {
  for (let candidate = port; ; candidate++) {
    try {
      await new Promise((resolve, reject) => {
        server.once('error', reject);
        server.listen(candidate, 'localhost', () => {
          server.off('error', reject);
          resolve(undefined);
        });
      });
      const address = server.address();
      return typeof address === 'object' && address ? address.port : candidate;
    } catch (error) {
      const isTaken = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!isTaken || candidate + 1 >= port + tries) throw error;
    }
  }
}
