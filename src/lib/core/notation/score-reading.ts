import { say } from '../../texts/reading';
import { TEMPO_MAX, TEMPO_MIN, type Meter } from '../rhythm/meter';
import { CAPO_MAX, FORM_MAX, KEY_MAX, MEASURES_MAX, TITLE_MAX } from '../tune/limits';
import type { MeasureDraft, PartDraft } from '../tune/make-tune';
import { findSharedMeasures } from '../tune/shared-measures';
import type { Pickup } from '../tune/tune';
import { joinLeadIns, type WholePlan } from './lead-ins';
import { partsLeftOut } from './play-order';
import { refusedReading, Warnings, type Reading } from './reading';
import type { Score, ScoreMeter, ScoreVoice } from './score';
import { fittedMeasures, fittedPickup, ledIn, type Fitting } from './score-measures';
import { nearestMeter } from './score-meter';
import { playPlan } from './score-units';

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

/**
 * One voice of a score as measures to learn, in the order in which they are played: a section that is played again the
 * same is one part with more letters in the form, anything else is written out. Meters that are not clicked go to the
 * nearest one, with crooked measures. Strikes where every note of a measure says its string and fret, melody elsewhere.
 */
export function readingOfScore(score: Score, voice = 0): Reading {
  const chosen = score.voices[voice] ?? score.voices[0];
  const warnings = new Warnings();
  const plan = chosen ? joinLeadIns(playPlan(score, chosen), warnings) : null;
  if (!chosen || !plan || plan.played.length === 0) {
    const none = refusedReading(say.noMeasures);
    return { ...none, title: titleOf(score), warnings: [...score.warnings, ...none.warnings] };
  }
  const first = score.meter ?? chosen.measures.find(({ meter }) => meter)?.meter ?? null;
  const meter = first ? nearestMeter(first) : '4/4';
  sayMeter(first, meter, chosen, warnings);
  const isTab = chosen.measures.some(({ notes }) => notes.some(({ fingering }) => fingering));
  const fitting = { meter, isTab, warnings };
  const { parts, form, pickup } = namedParts(plan, fitting);
  for (const name of partsLeftOut(chosen, score.order)) {
    const at = chosen.measures.find(({ part }) => part === name);
    warnings.add(at?.line ?? 1, at?.column ?? 1, say.partNotInOrder(name));
  }
  return {
    title: titleOf(score),
    key: score.key?.slice(0, KEY_MAX) ?? null,
    meter,
    tuning: score.tuning,
    capo: score.capo !== null && score.capo >= 0 && score.capo <= CAPO_MAX ? score.capo : null,
    tempo: tempoOf(score),
    form,
    parts: findSharedMeasures(parts),
    pickup,
    warnings: [...score.warnings, ...warnings.list()],
  };
}

function titleOf({ title }: Score): string | null {
  return title?.trim().slice(0, TITLE_MAX) || null;
}

function tempoOf({ tempo }: Score): number | null {
  return tempo !== null && tempo >= TEMPO_MIN && tempo <= TEMPO_MAX ? tempo : null;
}

function sayMeter(
  written: ScoreMeter | null,
  meter: Meter,
  { measures }: ScoreVoice,
  warnings: Warnings,
): void {
  const [line, column] = [measures[0]?.line ?? 1, measures[0]?.column ?? 1];
  if (!written) warnings.add(line, column, say.noMeter(meter));
  else if (`${written.count}/${written.unit}` !== meter) {
    warnings.add(line, column, say.nearestMeter(`${written.count}/${written.unit}`, meter));
  }
}

/** The units of a plan as parts with letters: the source's own where they are free single capitals. */
function namedParts(
  plan: WholePlan,
  fitting: Fitting,
): { parts: PartDraft[]; form: string; pickup: Pickup | null } {
  const naming = new Naming(new Set(plan.units.map(({ name }) => name)), fitting.warnings);
  let form = '';
  const pickup = plan.pickup ? fittedPickup(plan.pickup, fitting) : null;
  // a lead-in that is as long as a measure of the mapped meter is a measure
  if (plan.pickup && !pickup) form += naming.lettersOf(null, [ledIn(plan.pickup, fitting)], plan.pickup);
  const letters = plan.units.map(({ name, fragments }, unit) =>
    plan.played.includes(unit)
      ? naming.lettersOf(name, fittedMeasures(fragments, fitting), fragments[0]!)
      : '',
  );
  for (const unit of plan.played) form += letters[unit] ?? '';
  if (form.length > FORM_MAX) {
    const at = plan.units[0]?.fragments[0];
    fitting.warnings.add(at?.line ?? 1, at?.column ?? 1, say.formTooLong(form.length, FORM_MAX));
    form = form.slice(0, FORM_MAX);
  }
  return { parts: naming.parts.filter(({ name }) => form.includes(name)), form, pickup };
}

/** Gives parts their letters; music that comes again under the same name keeps its letter. */
class Naming {
  readonly parts: PartDraft[] = [];
  readonly #known = new Map<string, string>();
  readonly #warnings: Warnings;
  readonly #spoken: ReadonlySet<string | null>;

  /** `spoken` are the source's own names: a part without a name takes none of them while others are free. */
  constructor(spoken: ReadonlySet<string | null>, warnings: Warnings) {
    this.#spoken = spoken;
    this.#warnings = warnings;
  }

  /** One letter for a part, more for one that is longer than a part may be; none when the letters run out. */
  lettersOf(
    name: string | null,
    measures: readonly MeasureDraft[],
    at: { line: number; column: number },
  ): string {
    const key = `${name ?? ''} ${JSON.stringify(measures)}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    let letters = '';
    for (let from = 0; from < measures.length; from += MEASURES_MAX) {
      const letter = this.#freeLetter(name);
      if (letter === undefined) {
        this.#warnings.add(at.line, at.column, say.tooManyParts(LETTERS.length));
        break;
      }
      letters += letter;
      this.parts.push({ name: letter, measures: measures.slice(from, from + MEASURES_MAX) });
    }
    if (letters.length > 1) {
      this.#warnings.add(at.line, at.column, say.partTooLong(MEASURES_MAX, [...letters]));
    }
    this.#known.set(key, letters);
    return letters;
  }

  #freeLetter(name: string | null): string | undefined {
    const used = new Set(this.parts.map((part) => part.name));
    if (name !== null && LETTERS.includes(name) && !used.has(name)) return name;
    const free = LETTERS.filter((letter) => !used.has(letter));
    return free.find((letter) => !this.#spoken.has(letter)) ?? free[0];
  }
}
