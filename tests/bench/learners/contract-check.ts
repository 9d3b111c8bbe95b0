import type { Learner, LearnerFactory, PassAsked, PassHeard } from './contract';

const OUTCOMES: readonly unknown[] = ['clean', 'stumbled', 'broke down'] satisfies PassHeard['outcome'][];
const METHODS = ['play', 'night', 'ready'] as const;

/**
 * The same factory, whose learners refuse with a sentence where they leave the contract.
 * @throws Error when `made` is no function
 */
export function keepingContract(made: unknown): LearnerFactory {
  if (typeof made !== 'function') {
    throw new Error('A learner module has a function as its default export: see CONTRACT.md.');
  }
  return (input) => checked((made as (given: typeof input) => unknown)(input));
}

function checked(learner: unknown): Learner {
  for (const name of METHODS) {
    if (typeof (learner as Partial<Learner> | null | undefined)?.[name] !== 'function') {
      throw new Error(`A learner has the functions ${METHODS.join(', ')}: ${name} is missing.`);
    }
  }
  const own = learner as Learner;
  return {
    play: (pass) => checkedPass(pass, own.play(pass)),
    night: (at) => own.night(at),
    ready: (tuneId, at) => checkedTempo(own.ready(tuneId, at)),
    // copies are the oracle's own: they are made from a learner that has been checked
    ...(own.fork && { fork: own.fork.bind(own) }),
    ...(own.abilities && { abilities: own.abilities.bind(own) }),
  };
}

function checkedPass({ figures }: PassAsked, heard: unknown): PassHeard {
  const { outcome, missAt } = (heard ?? {}) as Partial<Record<keyof PassHeard, unknown>>;
  if (!OUTCOMES.includes(outcome)) {
    throw new Error(`A pass's outcome is ${OUTCOMES.join(', ')}: saw ${String(outcome)}.`);
  }
  const isInside = Number.isInteger(missAt) && Number(missAt) >= 0 && Number(missAt) < figures.length;
  if (missAt !== null && !isInside) {
    throw new Error(
      `A pass's missAt is null or an index into its ${figures.length} figures: saw ${String(missAt)}.`,
    );
  }
  return heard as PassHeard;
}

function checkedTempo(tempo: unknown): number {
  if (typeof tempo === 'number' && Number.isFinite(tempo) && tempo > 0) return tempo;
  throw new Error(`What a learner is ready for is a finite tempo over 0: saw ${String(tempo)}.`);
}
