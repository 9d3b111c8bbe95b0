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

/** Without these plugins of GStreamer the engine's audio clock stands still. */
const WEBKIT = ['webkit2gtk-driver', 'xvfb', 'gstreamer1.0-plugins-base', 'gstreamer1.0-plugins-good'];

/**
 * What the outside checks compare with, by the file that tells that it is there: the second reader of ABC, and the second
 * browser engine with a screen for it. Where one cannot be installed its tests skip with a line.
 */
const OPTIONAL = [
  { file: '/usr/bin/abc2midi', packages: ['abcmidi'] },
  { file: '/usr/bin/WebKitWebDriver', packages: WEBKIT },
];

export function installOptional() {
  for (const { file, packages } of OPTIONAL) {
    if (existsSync(file) || !mayInstall()) continue;
    const names = packages.join(', ');
    console.log(`No ${names} found: installing with apt-get.`);
    if (!install(...packages))
      console.log(`${names} could not be installed: the tests with it will be skipped.`);
  }
}

/**
 * @param {string[]} packages of the system's
 * @returns {boolean} whether they are there now
 */
function install(...packages) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return [
    ['update', '-qq'],
    ['install', '-y', '-qq', '--no-install-recommends', ...packages],
  ].every((args) => spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0);
}

/**
 * Of no use without a person before the browser: pages of its own for the address bar, a process kept ready for the next
 * site, and what asks the network by itself. The first two take a second of processor at every start.
 */
const WITHOUT = [
  ...['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'SpareRendererForSitePerProcess'],
  ...['HttpsUpgrades', 'MediaRouter', 'NetworkTimeServiceQuerying', 'OptimizationHints', 'PaintHolding'],
];

/** How Playwright starts the browser; Chromium's own sandbox does not work for root in a container. */
export const LAUNCH = {
  chromiumSandbox: false,
  args: ['--disable-background-networking', `--disable-features=${WITHOUT.join(',')}`],
};
