import path from 'node:path';
import { BASELINES } from './policies/index';
import type { Run, RunResult, Scenario } from './simulate';

export interface Finished {
  run: Run;
  result: RunResult;
}

/** One line of the bench's output. */
export type Line = Record<string, string | number | boolean>;

const MINUTES: Partial<Record<Scenario, string>> = {
  'one tune': 'minutes-to-goal-1',
  'five tunes': 'minutes-to-goal-5',
};
const SHARE = 'repertoire-kept-180';
/** What the issue of the planner aims at. */
const AIMS = { best: 0.8, playThrough: 0.5, oracle: 1.2, kept: 1.3 };

/** Every figure of every learner and policy, then how the planner stands to the others. */
export function figureLines(finished: readonly Finished[]): Line[] {
  const groups = new Map<string, Finished[]>();
  for (const one of finished) {
    const { learnerFile, scenario, policy } = one.run;
    const key = [learnerFile, scenario, policy].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const lines = [...groups.values()].flatMap(linesOf);
  return [...lines, ...comparisons(lines)];
}

function linesOf(group: readonly Finished[]): Line[] {
  const { learnerFile, policy, scenario } = group[0]!.run;
  const results = group.map(({ result }) => result);
  const named = (figure: string, rest: Line): Line => ({
    ...{ learner: path.basename(learnerFile, '.mjs'), policy, figure, ...rest, seeds: group.length },
  });
  const lines: Line[] = [];
  const minutes = MINUTES[scenario];
  if (minutes) {
    const reached = results.filter((result) => result.reached).length;
    lines.push(named(minutes, { ...spread(results.map((result) => result.minutes)), reached }));
  } else {
    lines.push(
      named(
        SHARE,
        spread(
          results.map(({ share }) => share),
          3,
        ),
      ),
    );
  }
  if (scenario !== 'one tune') {
    lines.push(
      named(
        `retunes-a-sitting-${scenario === 'repertoire' ? 30 : 5}`,
        spread(
          results.map((result) => result.retunesASitting),
          2,
        ),
      ),
    );
  }
  const intervals = results.reduce((sum, result) => sum + result.intervals, 0);
  if (scenario === 'one tune' && intervals > 0) {
    const held = results.reduce((sum, result) => sum + result.held, 0);
    lines.push(named('calibration-80', { value: round(held / intervals, 3), intervals }));
  }
  return lines;
}

function spread(values: readonly number[], digits = 0): Line {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => round(sorted[Math.round(share * (sorted.length - 1))]!, digits);
  const middle = (sorted.length - 1) / 2;
  const median = (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
  return { median: round(median, digits), p10: at(0.1), p90: at(0.9) };
}

function comparisons(lines: readonly Line[]): Line[] {
  const found: Line[] = [];
  const toPlayThrough: Record<string, number[]> = {};
  for (const planned of lines.filter(({ policy }) => policy === 'planner')) {
    const { learner, figure } = planned;
    if (typeof planned['median'] !== 'number' || typeof figure !== 'string') continue;
    const median = planned['median'];
    const others = lines.filter((line) => line['learner'] === learner && line['figure'] === figure);
    const medianOf = (policy: string) => {
      const value = others.find((line) => line['policy'] === policy)?.['median'];
      return typeof value === 'number' ? value : null;
    };
    const baselines = Object.keys(BASELINES)
      .map((policy) => ({ policy, median: medianOf(policy) }))
      .filter((other): other is { policy: string; median: number } => other.median !== null);
    if (baselines.length === 0) continue;
    const more = figure === SHARE;
    if (!more && !figure.startsWith('minutes')) continue;
    const best = baselines.reduce((a, b) => ((more ? b.median > a.median : b.median < a.median) ? b : a));
    const ratio = round(median / best.median, 3);
    const target = more ? AIMS.kept : AIMS.best;
    found.push({
      ...{ learner: learner!, figure: `${figure}-to-best-baseline`, best: best.policy, target },
      value: Number.isFinite(ratio) ? ratio : 'nothing to compare with: theirs is 0',
      met: more ? ratio >= target : ratio <= target,
    });
    const through = medianOf('play-through');
    if (!more && through !== null) (toPlayThrough[figure] ??= []).push(median / through);
    const known = medianOf('oracle');
    if (known !== null) {
      const value = round(median / known, 3);
      found.push({
        ...{ learner: learner!, figure: `${figure}-to-oracle`, value, target: AIMS.oracle },
        met: value <= AIMS.oracle,
      });
    }
  }
  for (const [figure, ratios] of Object.entries(toPlayThrough)) {
    const value = Number(spread(ratios, 3)['median']);
    const target = AIMS.playThrough;
    found.push({ learner: 'all', figure: `${figure}-to-play-through`, value, target, met: value <= target });
  }
  return found;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
