import { availableParallelism } from 'node:os';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { fork } from 'node:child_process';
import { figureLines, type Finished } from './figures';
import { laws } from './laws/all.mjs';
import { POLICIES } from './policies/index';
import { SCENARIOS, type Run, type Scenario } from './simulate';
import type { Answer } from './worker';

const LAWS = path.join(import.meta.dirname, 'laws');
/** The oracle tries everything everywhere: too slow for thirty tunes, and no figure asks for it. */
const NOT_FOR_ORACLE: Scenario = 'repertoire';
/** A quick look: one tune, few seeds, and no oracle. */
const QUICK = { seeds: 5, scenario: 'one tune' };

const { values } = parseArgs({
  options: {
    learner: { type: 'string', multiple: true },
    days: { type: 'string', default: '120' },
    minutes: { type: 'string', default: '20' },
    seeds: { type: 'string', default: '20' },
    quick: { type: 'boolean', default: false },
    policy: { type: 'string', multiple: true, default: Object.keys(POLICIES) },
    scenario: { type: 'string', multiple: true, default: [...SCENARIOS] },
  },
});

function fail(message: string): never {
  console.error(message);
  process.exit(2);
}

function whole(name: 'days' | 'minutes' | 'seeds', least: number, most: number): number {
  const number = Number(values[name]);
  if (Number.isInteger(number) && number >= least && number <= most) return number;
  return fail(`--${name} takes a whole number from ${least} to ${most}: saw ${values[name]}.`);
}

const files = values.learner ?? Object.keys(laws).map((name) => path.join(LAWS, `${name}.mjs`));
for (const file of files) {
  if (!existsSync(file)) fail(`There is no learner module ${file}.`);
}
for (const name of values.policy) {
  if (!POLICIES[name]) fail(`No policy "${name}". Policies: ${Object.keys(POLICIES).join(', ')}.`);
}
for (const name of values.scenario) {
  if (!SCENARIOS.some((known) => known === name)) fail(`No scenario "${name}": ${SCENARIOS.join(', ')}.`);
}
const days = whole('days', 1, 2000);
const minutes = whole('minutes', 5, 120);
const seeds = values.quick ? QUICK.seeds : whole('seeds', 1, 1000);
const scenarios = (values.quick ? [QUICK.scenario] : values.scenario) as Scenario[];

const waiting: Run[] = files.flatMap((learnerFile) =>
  scenarios.flatMap((scenario) =>
    values.policy
      .filter((policy) => policy !== 'oracle' || (scenario !== NOT_FOR_ORACLE && !values.quick))
      .flatMap((policy) =>
        Array.from({ length: seeds }, (_, seed) => ({
          ...{ learnerFile, policy, scenario, seed: seed + 1, days, minutes },
        })),
      ),
  ),
);

const finished: Finished[] = [];

async function work(): Promise<void> {
  const worker = fork(path.join(import.meta.dirname, 'worker.ts'), { execArgv: ['--import', 'tsx'] });
  for (let run = waiting.shift(); run; run = waiting.shift()) {
    const heard = once(worker, 'message') as Promise<[Answer]>;
    worker.send(run);
    const [answer] = await heard;
    if ('error' in answer) fail(`${path.basename(run.learnerFile)}, ${run.policy}: ${answer.error}`);
    if (answer.result) finished.push({ run, result: answer.result });
  }
  worker.disconnect();
}

await Promise.all(Array.from({ length: Math.min(availableParallelism(), waiting.length) }, work));
for (const line of figureLines(finished)) console.log(JSON.stringify(line));
