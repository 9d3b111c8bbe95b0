import { say } from '$lib/texts/book';

/** The result of a request of plain IndexedDB. One that fails ends nothing but itself, as far as its transaction is for reading. */
export function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = (event) => {
      if (request.transaction?.mode === 'readonly') event.preventDefault();
      reject(request.error ?? new Error(say.noReason));
    };
  });
}

/** Resolves when a transaction of plain IndexedDB is on disk. */
export function committed(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new Error(say.noReason));
  });
}
