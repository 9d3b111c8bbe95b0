import demoUrl from '../../../sample-data/demo-book.json?url';
import { practiceDay } from '$lib/core/time/practice-day';
import { say } from '$lib/texts/app';
import { app } from './app.svelte';
import { momentNow } from './clock';
import { sentence } from './sentence';

/**
 * Merges the demo book in, moved by whole days so that its last sitting was yesterday. Throws an Error that says
 * what is wrong when the file cannot be had or read.
 */
async function loadDemo(): Promise<void> {
  await app.open();
  const [{ readBackup }, { shiftBook }, response] = await Promise.all([
    import('$lib/core/book/backup'),
    import('$lib/core/book/demo'),
    fetch(demoUrl),
  ]);
  if (!response.ok) throw new Error(say.noDemo);
  const reading = readBackup(await response.text());
  if (!reading.ok) throw new Error(say.badDemo(reading.damage.join(' ')));
  const last = reading.book.sittings.reduce((latest, sitting) => Math.max(latest, practiceDay(sitting)), 0);
  await app.mergeIn(shiftBook(reading.book, practiceDay(momentNow()) - 1 - last));
}

/** The demo's one touch, wherever an empty book offers it. */
class Demo {
  isLoading = $state(false);
  /** Why it could not be loaded. */
  trouble: string | null = $state(null);

  async load(): Promise<void> {
    this.isLoading = true;
    this.trouble = null;
    try {
      await loadDemo();
    } catch (error) {
      this.trouble = sentence(error);
    }
    this.isLoading = false;
  }
}

export const demo = new Demo();
