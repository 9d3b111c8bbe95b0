import { BUILD, ensureBuilt, ensureInstalled, giveUp } from './prepare.js';

const FIRST_PORT = 4173;

ensureInstalled();
ensureBuilt();

const asked = process.env['PORT'];
const port = asked === undefined ? FIRST_PORT : Number(asked);
if (!Number.isInteger(port) || port < 0 || port > 65535) {
  giveUp(`PORT must be a number from 0 to 65535, saw "${String(asked)}".`);
}
// loaded late: before the installation there is no file server to load
const { serveApp } = await import('./serve.js');
try {
  const { url } = await serveApp({ folder: BUILD, port, orNext: asked === undefined });
  console.log(`Phrasewright is at ${url}/  (Ctrl+C ends it)`);
} catch (error) {
  giveUp(`Cannot serve on port ${String(port)}: ${error instanceof Error ? error.message : String(error)}`);
}
