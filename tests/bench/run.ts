import { readdirSync } from 'node:fs';
import path from 'node:path';
import { type Measure, toLine } from './figure';

const GROUPS = path.join(import.meta.dirname, 'groups');

const known = readdirSync(GROUPS)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.replace(/\.ts$/, ''))
  .sort();
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !known.includes(name));
if (unknown.length > 0) {
  console.error(`No group "${unknown.join('", "')}". Groups: ${known.join(', ')}.`);
  process.exit(2);
}
for (const name of asked.length > 0 ? asked : known) {
  const { measure } = (await import(path.join(GROUPS, `${name}.ts`))) as { measure: Measure };
  for await (const figure of measure()) console.log(toLine(figure));
}
// a group may leave a worker or a browser behind that would keep this program waiting
process.exit(0);
