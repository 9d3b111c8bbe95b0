import { ensureInstalled } from './prepare.js';
import { runInTheOpen, runStaticChecks } from './steps.js';

ensureInstalled();
const failed = await runStaticChecks();
const isTested = await runInTheOpen({
  name: 'node tests',
  bin: 'vitest/vitest.mjs',
  args: ['run', '--project', 'node'],
});
process.exitCode = failed === 0 && isTested ? 0 : 1;
