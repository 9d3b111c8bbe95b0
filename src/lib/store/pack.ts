import { Gunzip } from 'fflate';

/** Bytes of a file that are taken at a time: a thousand times as many may come out of packed ones. */
const STEP = 32_768;

/** RFC 1952 section 2.3.1: the first two bytes of a gzip member. */
const GZIP_MAGIC = [0x1f, 0x8b] as const;

/** Blobs are made of so many bytes at a time, and the browser keeps those where it likes. */
const PART = 4_194_304;

/** The bytes of some texts, in UTF-8, packed by gzip when asked for. */
export function byteStream(
  texts: AsyncIterator<string, unknown>,
  isPacked: boolean,
): ReadableStream<Uint8Array<ArrayBuffer>> {
  const encoder = new TextEncoder();
  const bytes = new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      const { done, value } = await texts.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
    async cancel() {
      await texts.return?.();
    },
  });
  return isPacked ? bytes.pipeThrough(new CompressionStream('gzip')) : bytes;
}

/** All of a stream as a blob, without ever holding it in the memory of this thread. */
export async function blobOf(stream: ReadableStream<Uint8Array<ArrayBuffer>>, type: string): Promise<Blob> {
  let blob = new Blob([], { type });
  let parts: Uint8Array<ArrayBuffer>[] = [];
  let size = 0;
  for await (const part of chunksOf(stream)) {
    parts.push(part);
    size += part.length;
    if (size < PART) continue;
    blob = new Blob([blob, ...parts], { type });
    [parts, size] = [[], 0];
  }
  return new Blob([blob, ...parts], { type });
}

/** The stream as an iterable, which not every browser takes it for. */
async function* chunksOf<T>(stream: ReadableStream<T>): AsyncGenerator<T, undefined> {
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

/** The text of a file, unpacked where it is packed, as it comes; `onBytes` hears how many bytes of the file are read. */
export async function* textsOf(file: Blob, onBytes: (read: number) => void): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const slices = sliceStream(file, onBytes);
  const isPacked = isGzip(new Uint8Array(await file.slice(0, 2).arrayBuffer()));
  const bytes = isPacked ? slices.pipeThrough(new DecompressionStream('gzip')) : slices;
  for await (const chunk of chunksOf(bytes)) yield decoder.decode(chunk, { stream: true });
  yield decoder.decode();
}

function sliceStream(file: Blob, onBytes: (read: number) => void): ReadableStream<Uint8Array<ArrayBuffer>> {
  let from = 0;
  return new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      if (from >= file.size) return controller.close();
      const slice = file.slice(from, from + STEP);
      from += slice.size;
      onBytes(from);
      controller.enqueue(new Uint8Array(await slice.arrayBuffer()));
    },
  });
}

/** Of workers only, so not among the page's types. */
declare const FileReaderSync: new () => { readAsArrayBuffer(blob: Blob): ArrayBuffer };

/**
 * The same without ever waiting, for an IndexedDB transaction ends by itself as soon as it is waited for something else.
 * In workers only. The platform unpacks in streams alone, which are waited for.
 */
export function* textsAtOnce(file: Blob, onBytes: (read: number) => void): Generator<string> {
  const reader = new FileReaderSync();
  const decoder = new TextDecoder();
  let texts: string[] = [];
  const take = (bytes: Uint8Array): void => void texts.push(decoder.decode(bytes, { stream: true }));
  const gunzip = new Gunzip(take);
  let isPacked = false;
  for (let from = 0; from < file.size; from += STEP) {
    const bytes = new Uint8Array(reader.readAsArrayBuffer(file.slice(from, from + STEP)));
    if (from === 0) isPacked = isGzip(bytes);
    onBytes(Math.min(file.size, from + STEP));
    if (isPacked) gunzip.push(bytes, from + STEP >= file.size);
    else take(bytes);
    yield texts.join('');
    texts = [];
  }
  yield decoder.decode();
}

function isGzip(bytes: Uint8Array): boolean {
  return GZIP_MAGIC.every((byte, index) => bytes[index] === byte);
}
