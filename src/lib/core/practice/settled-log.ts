import { OUTCOMES, type Correction, type LogEntry, type Pass } from './records';

/** The canonical order of the log: by instant, then by id. An instant that is no number counts as 1970. */
function compareEntries(a: LogEntry, b: LogEntry): number {
  return instant(a.at) - instant(b.at) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

function instant(at: number): number {
  return Number.isFinite(at) ? at : 0;
}

/** Of records with one id that differ all the same (a damaged book), the first in this order is kept. */
function comparePasses(a: Pass, b: Pass): number {
  return (
    compareEntries(a, b) ||
    a.tempo - b.tempo ||
    OUTCOMES.indexOf(a.outcome) - OUTCOMES.indexOf(b.outcome) ||
    Number(a.fromMemory) - Number(b.fromMemory) ||
    (a.missAt ?? -1) - (b.missAt ?? -1) ||
    (a.drillId < b.drillId ? -1 : a.drillId > b.drillId ? 1 : 0)
  );
}

function compareCorrections(a: Correction, b: Correction): number {
  return compareEntries(a, b) || (a.outcome < b.outcome ? -1 : a.outcome > b.outcome ? 1 : 0);
}

/** The correction that holds for each corrected pass: the latest by `at`, then by id. */
export function holdingCorrections(log: Iterable<LogEntry>): Map<string, Correction> {
  const holding = new Map<string, Correction>();
  for (const entry of log) {
    if (entry.kind !== 'correction') continue;
    const other = holding.get(entry.passId);
    if (!other || compareCorrections(entry, other) > 0) holding.set(entry.passId, entry);
  }
  return holding;
}

/**
 * The passes that count, in canonical order, with their corrected outcomes: the same whatever the order in which the
 * log arrived. One record twice is one pass; `unmarked` takes a pass out. A miss that became clean loses its `missAt`.
 */
export function countedPasses(log: readonly LogEntry[]): Pass[] {
  const corrections = holdingCorrections(log);
  const passes = log.filter((entry): entry is Pass => entry.kind === 'pass');
  // ids that rise with time, as UUIDv7s do, are all different: the usual log needs neither sorting nor a set of a million ids
  const rising = isRising(passes);
  if (!rising) passes.sort(comparePasses);
  const seen = new Set<string>();
  const counted: Pass[] = [];
  for (const pass of passes) {
    if (!rising) {
      if (seen.has(pass.id)) continue;
      seen.add(pass.id);
    }
    const outcome =
      corrections.size === 0 ? pass.outcome : (corrections.get(pass.id)?.outcome ?? pass.outcome);
    if (outcome === 'unmarked') continue;
    if (outcome === pass.outcome) counted.push(pass);
    else counted.push({ ...pass, outcome, missAt: outcome === 'clean' ? null : pass.missAt });
  }
  return counted;
}

function isRising(passes: readonly Pass[]): boolean {
  for (let index = 1; index < passes.length; index++) {
    const before = passes[index - 1]!;
    const pass = passes[index]!;
    if (!(instant(before.at) <= instant(pass.at) && before.id < pass.id)) return false;
  }
  return true;
}
