import { vi } from 'vitest';

/** Every audio context that is opened from now on, in order; options of the n-th may be given. */
export function watchContexts(options: readonly AudioContextOptions[] = []): AudioContext[] {
  const contexts: AudioContext[] = [];
  const Real = AudioContext;
  vi.stubGlobal(
    'AudioContext',
    class extends Real {
      constructor(given?: AudioContextOptions) {
        super({ ...given, ...options[contexts.length] });
        contexts.push(this);
      }
    },
  );
  return contexts;
}

export const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

export async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await sleep(10);
}

export function blockPage(ms: number): void {
  const end = performance.now() + ms;
  while (performance.now() < end);
}
