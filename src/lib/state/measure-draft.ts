import { readBareWriting, readMeasureDraft, type MeasureDraft } from '$lib/core/book/measure-draft';
import type { MeasureWriting } from '$lib/core/notation/measure-edit';
import type { Id } from '$lib/core/tune/tune';
import { app, sentence } from './app.svelte';
import { waitingWrites } from './waiting-writes.svelte';

/** Where a measure stands: a tune, one of its layers, a measure of its board. */
export interface MeasureAt {
  tuneId: Id;
  layerId: Id;
  measureId: Id;
}

/** Under this and the place, the first versions kept drafts in localStorage, which a killed browser loses. */
const OLD_KEY = 'phrasewright-measure ';

/** What was written on a measure and not saved; one that an older version kept is taken over. */
export async function measureDraft(at: MeasureAt): Promise<MeasureDraft | null> {
  const waiting = unwritten.get(nameOf(at));
  if (waiting !== undefined) return waiting;
  try {
    return readMeasureDraft(await app.draft(nameOf(at))) ?? (await takenOver(at));
  } catch {
    // the measure can be written all the same, and says so when what is written cannot be kept
    return null;
  }
}

/** Drafts on their way to the disk, by name: of each the newest, which a look at the measure meanwhile finds. */
const unwritten = new Map<string, MeasureDraft | null>();
const writing = new Map<string, Promise<void>>();

/**
 * Keeps the draft of a measure as it changes: one write at a time, and of several that wait only the newest. With `null`, none
 * any more. Resolves once that, or something newer, is on disk; rejects when it could not be written, and it waits.
 */
export function keepMeasureDraft(at: MeasureAt, draft: MeasureDraft | null): Promise<void> {
  const name = nameOf(at);
  unwritten.set(name, draft);
  return write(name);
}

/** Why the draft of a measure is not on disk; `null`: it is, or there is none. */
export function whyNotKept(at: MeasureAt): string | null {
  return waitingWrites.whyOf(waitingName(nameOf(at)));
}

function write(name: string): Promise<void> {
  const underWay = writing.get(name) ?? writeNewest(name).finally(() => writing.delete(name));
  writing.set(name, underWay);
  return underWay;
}

async function writeNewest(name: string): Promise<void> {
  try {
    for (let draft = unwritten.get(name); draft !== undefined; draft = unwritten.get(name)) {
      await app.keepDraft(name, draft);
      if (unwritten.get(name) === draft) unwritten.delete(name);
    }
    waitingWrites.drop(waitingName(name));
  } catch (error) {
    const why = sentence(error);
    waitingWrites.keep(waitingName(name), { kind: 'draft', count: 1, why, write: () => write(name) });
    throw error;
  }
}

/** Of the draft of a name, among all that waits. */
function waitingName(name: string): string {
  return `draft ${name}`;
}

async function takenOver(at: MeasureAt): Promise<MeasureDraft | null> {
  const key = OLD_KEY + [at.tuneId, at.layerId, at.measureId].join(' ');
  const writing = oldWriting(key);
  if (!writing) return null;
  const draft: MeasureDraft = { writing, base: null };
  try {
    await app.keepDraft(nameOf(at), draft);
    localStorage.removeItem(key);
  } catch {
    // it stays where it is, and is taken over another time
  }
  return draft;
}

function oldWriting(key: string): MeasureWriting | null {
  try {
    return readBareWriting(JSON.parse(localStorage.getItem(key) ?? 'null'));
  } catch {
    // switched off, or no draft
    return null;
  }
}

function nameOf({ tuneId, layerId, measureId }: MeasureAt): string {
  return [tuneId, layerId, measureId].join('_');
}
