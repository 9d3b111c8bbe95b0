import { longDate } from '../words';

/** A damaged record as it is listed. */
export interface AsideRecord {
  key: string;
  table: 'tunes' | 'sittings' | 'sitting' | 'drills' | 'passes' | 'settings';
  id: string;
  row: unknown;
  isBack: boolean;
}

const KINDS: Record<AsideRecord['table'], string> = {
  tunes: 'A tune',
  sittings: 'A sitting',
  sitting: 'The sitting that was open',
  drills: 'A drill',
  passes: 'A mark of a pass',
  settings: 'A setting',
};

/** What a damaged record is, by what can still be read of it: `A tune, “Old Joe Clark”`. */
export function sayAside({ table, id, row }: AsideRecord): string {
  const { title, at } = fieldsOf(row);
  if (typeof title === 'string' && title !== '') return `${KINDS[table]}, “${title.slice(0, 60)}”`;
  if (table === 'settings') return `${KINDS[table]}, ${id}`;
  if (typeof at === 'number' && Number.isFinite(at)) return `${KINDS[table]} of ${longDate(at)}`;
  return id === '' || table === 'sitting' ? KINDS[table] : `${KINDS[table]}, ${id}`;
}

/** Of the record itself, also where a row wraps one. */
function fieldsOf(row: unknown): Record<string, unknown> {
  const outer = recordOf(row);
  return { ...recordOf(outer['sitting'] ?? outer['drill'] ?? outer['entry']), ...outer };
}

function recordOf(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}
