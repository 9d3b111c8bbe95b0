import { spawn } from 'node:child_process';
import path from 'node:path';
import { ROOT } from './prepare.js';

/**
 * @typedef {{ name: string, bin: string, args: readonly string[] }} Step a program of node_modules, as path and arguments
 */

/** Checks that need no browser, slowest first. @type {readonly Step[]} */
const STATIC_CHECKS = [
  { name: 'eslint', bin: 'eslint/bin/eslint.js', args: ['.', '--max-warnings', '0'] },
  {
    name: 'svelte-check',
    bin: 'svelte-check/bin/svelte-check',
    args: ['--fail-on-warnings', '--output', 'human'],
  },
  {
    name: 'prettier',
    bin: 'prettier/bin/prettier.cjs',
    args: ['--check', '.', '--cache', '--log-level', 'warn'],
  },
  { name: 'unused code', bin: 'knip/bin/knip.js', args: ['--no-progress', '--no-config-hints'] },
  {
    name: 'files that only tests use',
    bin: 'knip/bin/knip.js',
    args: ['--production', '--include', 'files', '--no-progress', '--no-config-hints'],
  },
  { name: 'types of core', bin: 'typescript/bin/tsc', args: ['-p', 'src/lib/core'] },
  { name: 'types of the service worker', bin: 'typescript/bin/tsc', args: ['-p', 'src/service-worker'] },
];

/** Writes the generated types that every other check reads. @type {Step} */
const SYNC = { name: 'generated types', bin: '@sveltejs/kit/svelte-kit.js', args: ['sync'] };

/** As many checks at a time as two cores carry. */
const LANES = 2;

/**
 * @param {Step} step
 * @returns {Promise<{ step: Step, isGood: boolean, output: string, seconds: number }>}
 */
function runQuietly(step) {
  const began = Date.now();
  const program = path.join(ROOT, 'node_modules', step.bin);
  const child = spawn(process.execPath, [program, ...step.args], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (text) => {
      output += text;
    });
  }
  return new Promise((resolve) => {
    child.on('close', (code) => {
      resolve({ step, isGood: code === 0, output, seconds: (Date.now() - began) / 1000 });
    });
  });
}

/**
 * Runs a step in the open.
 * @param {Step} step
 * @returns {Promise<boolean>} whether it passed
 */
export function runInTheOpen(step) {
  const program = path.join(ROOT, 'node_modules', step.bin);
  const child = spawn(process.execPath, [program, ...step.args], { cwd: ROOT, stdio: 'inherit' });
  return new Promise((resolve) => {
    child.on('close', (code) => {
      resolve(code === 0);
    });
  });
}

/**
 * Runs all static checks, prints one line for each that passes and the whole output of each that fails.
 * @returns {Promise<number>} how many failed
 */
export async function runStaticChecks() {
  /** @param {Awaited<ReturnType<typeof runQuietly>>} result */
  const report = ({ step, isGood, output, seconds }) => {
    console.log(`${isGood ? 'good  ' : 'FAILED'} ${step.name} (${seconds.toFixed(1)} s)`);
    if (!isGood) console.log(output.trimEnd());
    return isGood;
  };
  if (!report(await runQuietly(SYNC))) return 1;
  const waiting = [...STATIC_CHECKS];
  let failed = 0;
  const lane = async () => {
    for (let step = waiting.shift(); step; step = waiting.shift()) {
      if (!report(await runQuietly(step))) failed++;
    }
  };
  await Promise.all(Array.from({ length: LANES }, lane));
  return failed;
}
