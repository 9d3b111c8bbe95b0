import { completed, settled, timed } from './bare';

/** The platform's own parts, with nothing checked, counted or merged: what a backup cannot do without. */
export interface BareBackup {
  /** ms: every record read some at a time, as JSON, packed. */
  outMs: number;
  /** ms: the same unpacked, parsed by the line, and put into an empty database in one transaction. */
  inMs: number;
  bytes: number;
}

const PIECE = 100;
const ASIDE = 'bare-backup';

export async function bareBackup(name = 'phrasewright'): Promise<BareBackup> {
  let file = new Blob();
  const outMs = await timed(async () => (file = await packed(linesOf(name))));
  const inMs = await timed(() => putAll(file));
  await settled(indexedDB.deleteDatabase(ASIDE));
  return { outMs, inMs, bytes: file.size };
}

async function* linesOf(name: string): AsyncGenerator<string> {
  const db = await settled(indexedDB.open(name));
  for (const table of ['tunes', 'sittings']) {
    const records = (): IDBObjectStore => db.transaction(table).objectStore(table);
    const ids = await settled(records().getAllKeys());
    for (let from = 0; from < ids.length; from += PIECE) {
      const range = IDBKeyRange.bound(ids[from], ids[Math.min(from + PIECE, ids.length) - 1]);
      const piece = await settled<unknown[]>(records().getAll(range));
      yield piece.map((record) => `${JSON.stringify(record)}\n`).join('');
    }
  }
  db.close();
}

function packed(texts: AsyncGenerator<string>): Promise<Blob> {
  const stream = new ReadableStream<string>({
    async pull(controller) {
      const { done, value } = await texts.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
  });
  const bytes = stream.pipeThrough(new TextEncoderStream()).pipeThrough(new CompressionStream('gzip'));
  return new Response(bytes).blob();
}

async function putAll(file: Blob): Promise<void> {
  const opening = indexedDB.open(ASIDE);
  opening.onupgradeneeded = () => opening.result.createObjectStore('records', { keyPath: 'id' });
  const db = await settled(opening);
  const unpacked = file.stream().pipeThrough(new DecompressionStream('gzip'));
  const text = await new Response(unpacked).text();
  const transaction = db.transaction('records', 'readwrite', { durability: 'strict' });
  const records = transaction.objectStore('records');
  const done = completed(transaction);
  for (let from = 0, to = text.indexOf('\n'); to >= 0; from = to + 1, to = text.indexOf('\n', from)) {
    records.put(JSON.parse(text.slice(from, to)));
  }
  await done;
  db.close();
}
