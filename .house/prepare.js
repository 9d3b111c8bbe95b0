import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
export const CACHE = path.join(ROOT, 'node_modules', '.cache', 'phrasewright');
export const BUILD = path.join(ROOT, 'build');

/** Everything that the built app is made from. */
const SOURCES = [
  'src',
  'static',
  'sample-data',
  'package-lock.json',
  'svelte.config.js',
  'vite.config.ts',
  'tsconfig.json',
  '.house/precache-adapter.js',
  '.house/headers.js',
];

/** Ends the program with one plain line. @param {string} line @returns {never} */
export function giveUp(line) {
  console.error(line);
  process.exit(1);
}

/** @param {string} file @returns {Record<string, any> | null} */
function readJson(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    // missing or cut short: the caller treats both as "not there"
    return null;
  }
}

/**
 * Whether node_modules holds what the lock file asks for, by npm's own record of what it installed there.
 * Optional packages of other platforms are allowed to be missing.
 */
function isInstalled() {
  const wanted = readJson(path.join(ROOT, 'package-lock.json'))?.['packages'] ?? {};
  const present = readJson(path.join(ROOT, 'node_modules', '.package-lock.json'))?.['packages'];
  if (!present) return false;
  return Object.entries(wanted).every(([name, entry]) => {
    if (name === '') return true;
    const installed = present[name];
    return installed ? installed.version === entry.version : Boolean(entry.optional || entry.devOptional);
  });
}

export function ensureInstalled() {
  if (isInstalled()) return;
  console.log('Installing packages.');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const shell = process.platform === 'win32';
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  const { status } = spawnSync(npm, args, { cwd: ROOT, stdio: 'inherit', shell });
  if (status !== 0)
    giveUp('npm ci failed, see above; the network is needed for the first installation only.');
}

/** @param {string} file @returns {string[]} */
function filesUnder(file) {
  if (!existsSync(file)) return [];
  if (!statSync(file).isDirectory()) return [file];
  return readdirSync(file)
    .sort()
    .flatMap((name) => filesUnder(path.join(file, name)));
}

/** @param {readonly string[]} files */
function hashOf(files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(path.relative(ROOT, file)).update('\0').update(readFileSync(file));
  return hash.digest('hex');
}

/** The service worker lists every other built file with its revision, so it stands for the whole build. */
function stampOfBuild() {
  const worker = path.join(BUILD, 'service-worker.js');
  if (!existsSync(worker)) return null;
  return `${hashOf(SOURCES.flatMap((source) => filesUnder(path.join(ROOT, source))))} ${hashOf([worker])}`;
}

/** Builds the app into `build/` unless the build there was made from these very sources. */
export function ensureBuilt() {
  const stampFile = path.join(CACHE, 'build-stamp');
  const stamp = stampOfBuild();
  if (stamp !== null && existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return;
  console.log('Building the app.');
  const vite = path.join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  const args = [vite, 'build', '--logLevel', 'warn'];
  // a test runner that asks for the build has set NODE_ENV to something that would make it a development build
  const env = { ...process.env, NODE_ENV: 'production' };
  if (spawnSync(process.execPath, args, { cwd: ROOT, stdio: 'inherit', env }).status !== 0) {
    giveUp('The build failed, see above.');
  }
  mkdirSync(CACHE, { recursive: true });
  writeFileSync(stampFile, stampOfBuild() ?? '');
}
