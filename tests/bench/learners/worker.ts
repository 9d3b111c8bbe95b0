import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { LearnerFactory } from './contract';
import { keepingContract } from './contract-check';
import { canFork, simulate, type Run, type RunResult } from './simulate';

export type Answer = { result: RunResult } | { result: null } | { error: string };

const factories = new Map<string, LearnerFactory>();

async function factoryOf(file: string): Promise<LearnerFactory> {
  let factory = factories.get(file);
  if (!factory) {
    const module = (await import(pathToFileURL(path.resolve(file)).href)) as { default?: unknown };
    factories.set(file, (factory = keepingContract(module.default)));
  }
  return factory;
}

process.on('message', (run: Run) => {
  void answer(run).then((given) => process.send?.(given));
});

async function answer(run: Run): Promise<Answer> {
  try {
    const factory = await factoryOf(run.learnerFile);
    if (run.policy === 'oracle' && !canFork(factory)) return { result: null };
    return { result: simulate(factory, run) };
  } catch (error) {
    return { error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
