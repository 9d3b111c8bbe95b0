import { accessSync, constants, existsSync, statSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

const FIXED_PLACES = [
  '/usr/bin/chromium',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** @param {string} file */
function isExecutable(file) {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    // not there, or not ours to run: the next candidate may do
    return false;
  }
}

/**
 * Path of a Chromium to test with, or null. PHRASEWRIGHT_BROWSER decides alone when it is set.
 * @returns {string | null}
 */
export function findBrowser() {
  const chosen = process.env['PHRASEWRIGHT_BROWSER'];
  if (chosen) return isExecutable(chosen) ? chosen : null;
  const folders = (process.env['PATH'] ?? '').split(path.delimiter).filter(Boolean);
  const inPath = NAMES.flatMap((name) => folders.map((folder) => path.join(folder, name)));
  return [...FIXED_PLACES, ...inPath].find(isExecutable) ?? null;
}

/** Where `apt-get` may install, that is as root on a system that has it, and no browser was chosen by hand. */
function mayInstall() {
  return !process.env['PHRASEWRIGHT_BROWSER'] && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
}

/**
 * A browser, installed with the system's packages when there is none and that is allowed.
 * @returns {string | null}
 */
export function findOrInstallBrowser() {
  const found = findBrowser();
  if (found || !mayInstall()) return found;
  console.log('No Chromium found: installing it with apt-get.');
  return install('chromium') ? findBrowser() : null;
}

/** The second reader of ABC that the outside checks compare with; where it cannot be installed they skip with a line. */
export function installAbcmidi() {
  if (existsSync('/usr/bin/abc2midi') || !mayInstall()) return;
  console.log('No abcmidi found: installing it with apt-get.');
  if (!install('abcmidi')) console.log('abcmidi could not be installed: its examples will not be compared.');
}

/**
 * @param {string} packageName of the system's
 * @returns {boolean} whether it is there now
 */
function install(packageName) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return [
    ['update', '-qq'],
    ['install', '-y', '-qq', '--no-install-recommends', packageName],
  ].every((args) => spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0);
}

/** How Playwright starts the browser; Chromium's own sandbox does not work for root in a container. */
export const LAUNCH = { chromiumSandbox: false, args: ['--disable-background-networking'] };
