import { say } from '$lib/texts/settings-storage';
import { longDate } from '../words';

/** A damaged record as it is listed. */
export interface AsideRecord {
  key: string;
  table: 'tunes' | 'sittings' | 'sitting' | 'drills' | 'passes' | 'settings';
  id: string;
  row: unknown;
  isBack: boolean;
}

/** What a damaged record is, by what can still be read of it: `A tune, “Old Joe Clark”`. */
export function sayAside({ table, id, row }: AsideRecord): string {
  const { title, at } = fieldsOf(row);
  const kind = say.kinds[table];
  if (typeof title === 'string' && title !== '') return say.titled(kind, title.slice(0, 60));
  if (table === 'settings') return say.known(kind, id);
  if (typeof at === 'number' && Number.isFinite(at)) return say.ofDay(kind, longDate(at));
  return id === '' || table === 'sitting' ? kind : say.known(kind, id);
}

/** Of the record itself, also where a row wraps one. */
function fieldsOf(row: unknown): Record<string, unknown> {
  const outer = recordOf(row);
  return { ...recordOf(outer['sitting'] ?? outer['drill'] ?? outer['entry']), ...outer };
}

function recordOf(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}
