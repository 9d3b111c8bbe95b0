import demoUrl from '../../../sample-data/demo-book.json?url';
import { practiceDay } from '$lib/core/time/practice-day';
import { app } from './app.svelte';
import { momentNow } from './clock';

/**
 * Merges the demo book in, moved by whole days so that its last sitting was yesterday. Throws an Error that says
 * what is wrong when the file cannot be had or read.
 */
export async function loadDemo(): Promise<void> {
  const [{ readBackup }, { shiftBook }, response] = await Promise.all([
    import('$lib/core/book/backup'),
    import('$lib/core/book/demo'),
    fetch(demoUrl),
  ]);
  if (!response.ok)
    throw new Error('The demo tunes are not on this device yet. Open the app once with a network.');
  const reading = readBackup(await response.text());
  if (!reading.ok) throw new Error(`The demo tunes could not be read: ${reading.damage.join(' ')}`);
  const last = reading.book.sittings.reduce((latest, sitting) => Math.max(latest, practiceDay(sitting)), 0);
  await app.mergeIn(shiftBook(reading.book, practiceDay(momentNow()) - 1 - last));
}
