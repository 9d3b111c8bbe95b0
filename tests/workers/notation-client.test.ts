import { expect, test } from 'vitest';
import { NotationClient } from '../../src/lib/workers/notation-client';
import { NotationReader, type NotationQuestion } from '../../src/lib/workers/notation-mail';

const TAB = Array.from({ length: 5 }, () => '|--0---2-|--0-----|').join('\n');
const bytes = new TextEncoder().encode(TAB);
const calm = () => new AbortController().signal;

/** A worker in the same thread: answers at once, or never when it is `stuck`. */
class FakeWorker extends EventTarget {
  isTerminated = false;
  readonly #reader = new NotationReader();
  readonly #stuck: boolean;
  constructor(stuck = false) {
    super();
    this.#stuck = stuck;
  }
  postMessage(question: NotationQuestion): void {
    if (this.#stuck) return;
    const data = this.#reader.answer(structuredClone(question));
    queueMicrotask(() => this.dispatchEvent(new MessageEvent('message', { data: structuredClone(data) })));
  }
  terminate(): void {
    this.isTerminated = true;
  }
}
const asWorker = (fake: FakeWorker) => fake as unknown as Worker;

test('a source is opened, listed and read tune by tune', async () => {
  const client = new NotationClient(() => asWorker(new FakeWorker()));
  const listing = await client.open(calm(), bytes, 'x.txt');
  expect(listing).toMatchObject({ format: 'tab', entries: [{ number: null, line: 1 }] });
  const { reading } = await client.read(calm(), 0, { meter: '2/4', voice: 0 });
  expect(reading.parts.flatMap(({ measures }) => measures)).toHaveLength(2);
});

test('a source that takes too long is given up with a sentence, its worker is stopped, and the next one is read', async () => {
  const stuck = new FakeWorker(true);
  const workers = [stuck, new FakeWorker()];
  const client = new NotationClient(() => asWorker(workers.shift() ?? new FakeWorker(true)), 20);
  await expect(client.open(calm(), bytes, 'x.txt')).rejects.toThrow(/took too long/);
  expect(stuck.isTerminated).toBe(true);
  expect(await client.open(calm(), bytes, 'x.txt')).toMatchObject({ format: 'tab' });
});

test('an aborted question rejects with the reason and stops the worker', async () => {
  const stuck = new FakeWorker(true);
  const client = new NotationClient(() => asWorker(stuck));
  const stop = new AbortController();
  const opened = client.open(stop.signal, bytes, 'x.txt');
  stop.abort(new Error('left the screen'));
  await expect(opened).rejects.toThrow('left the screen');
  expect(stuck.isTerminated).toBe(true);
});

test('a worker that fails says so in the answer', async () => {
  const client = new NotationClient(() => asWorker(new FakeWorker()));
  await expect(client.read(calm(), 0, { meter: '2/4', voice: 0 })).rejects.toThrow('No source is open');
});
