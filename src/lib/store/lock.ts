/** Does the work while no other tab does any under the same book's lock. */
export async function withLock<T>(name: string, work: () => Promise<T>): Promise<T> {
  const locks = navigator.locks as LockManager | undefined;
  return locks ? locks.request(`${name}:book`, work) : work();
}
