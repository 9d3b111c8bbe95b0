/** Takes a Web Lock and keeps it: resolves to what lets it go, or to `null` while another holds it. Without locks everybody gets it. */
export function holdLock(name: string): Promise<(() => void) | null> {
  return new Promise((resolve) => {
    if (!('locks' in navigator)) {
      resolve(() => undefined);
      return;
    }
    void navigator.locks.request(name, { ifAvailable: true }, (lock) => {
      if (!lock) {
        resolve(null);
        return undefined;
      }
      return new Promise<void>((release) => {
        resolve(release);
      });
    });
  });
}
