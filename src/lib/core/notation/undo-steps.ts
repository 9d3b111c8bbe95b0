/** What was, what is, and what was undone: newest last in `past`, next to redo last in `future`. */
export interface UndoSteps<T> {
  past: readonly T[];
  present: T;
  future: readonly T[];
}

export function firstStep<T>(present: T): UndoSteps<T> {
  return { past: [], present, future: [] };
}

/** One step on; what was undone can be redone no more. The same value is no step. */
export function step<T>({ past, present, future }: UndoSteps<T>, next: T): UndoSteps<T> {
  return next === present
    ? { past, present, future }
    : { past: [...past, present], present: next, future: [] };
}

/** One step back; unchanged at the first. */
export function undo<T>(steps: UndoSteps<T>): UndoSteps<T> {
  const before = steps.past.at(-1);
  if (steps.past.length === 0 || before === undefined) return steps;
  return { past: steps.past.slice(0, -1), present: before, future: [...steps.future, steps.present] };
}

/** The step undone last, again; unchanged when there is none. */
export function redo<T>(steps: UndoSteps<T>): UndoSteps<T> {
  const after = steps.future.at(-1);
  if (steps.future.length === 0 || after === undefined) return steps;
  return { past: [...steps.past, steps.present], present: after, future: steps.future.slice(0, -1) };
}
