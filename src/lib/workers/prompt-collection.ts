/** More than the 64 MB outside its own heap by which Chromium's engine begins to collect. */
const BYTES = 70_000_000;

/**
 * Has the engine of a worker collect garbage soon. Called first thing, it keeps some sixty megabytes of rows that were read from
 * IndexedDB from piling up before the first collection, for until then the engine does not know how little the worker needs;
 * called after much was read, it frees what a worker with nothing to do would keep for long. The buffer's memory is only
 * promised: no page of it is ever touched, so it takes none.
 */
export function promptCollection(): void {
  try {
    new ArrayBuffer(BYTES);
  } catch {
    // the device does not even promise as much: the worker does without
  }
}
