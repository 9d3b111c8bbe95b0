/** The names of the Web Locks held in any tab or window; none where the browser cannot say. */
export async function heldLocks(): Promise<string[]> {
  if (!('locks' in navigator)) return [];
  const { held = [] } = await navigator.locks.query();
  return held.map(({ name = '' }) => name);
}
