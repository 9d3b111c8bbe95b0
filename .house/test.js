import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { findOrInstallBrowser, installOptional } from './browser.js';
import { CACHE, ensureBuilt, ensureInstalled, giveUp } from './prepare.js';
import { runInTheOpen, runStaticChecks } from './steps.js';

ensureInstalled();
const browser = findOrInstallBrowser();
if (!browser) {
  const chosen = process.env['PHRASEWRIGHT_BROWSER'];
  giveUp(
    chosen
      ? `PHRASEWRIGHT_BROWSER is "${chosen}", which is no program that can be run.`
      : 'No Chromium found and none could be installed: install one, or set PHRASEWRIGHT_BROWSER to its path.',
  );
}
console.log(`Testing with ${browser}`);
installOptional();

const failedChecks = await runStaticChecks();
ensureBuilt();
const { passed, failed } = await runTests();
const allFailed = failed + failedChecks;
if (failedChecks > 0)
  console.log(`Of the failures, ${String(failedChecks)} are static checks, reported above.`);
console.log(`${String(passed)} passed, ${String(allFailed)} failed`);
process.exitCode = allFailed === 0 ? 0 : 1;

/** @returns {Promise<{ passed: number, failed: number }>} a file that cannot be loaded counts as one failure */
async function runTests() {
  const report = path.join(CACHE, 'tests.json');
  mkdirSync(CACHE, { recursive: true });
  rmSync(report, { force: true });
  const isGood = await runInTheOpen({
    name: 'tests',
    bin: 'vitest/vitest.mjs',
    args: ['run', '--reporter', 'default', '--reporter', 'json', `--outputFile.json=${report}`],
  });
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, 'utf8'));
    const failed = isGood ? numFailedTests : Math.max(numFailedTests, 1);
    return { passed: numPassedTests, failed };
  } catch {
    // no report: the runner itself broke, and has said why
    return { passed: 0, failed: 1 };
  }
}
