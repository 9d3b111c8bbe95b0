import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright';

const SAMPLE_MS = 100;
/** It is at rest when it has not fallen by more than a fiftieth for so long. */
const REST_MS = 10_000;
const FALLS_BELOW = 0.98;
const LONGEST_REST_MS = 60_000;
const KB = 1024;
const MB = 1_000_000;

/** How much of the machine's memory the largest renderer of a browser takes, read again and again. */
export class MemoryWatch {
  /** At the beginning, before what is watched; 0 where the system does not tell. */
  readonly idleMb: number;
  /** The most that was seen. */
  #peakMb: number;
  readonly #pids: readonly number[];
  readonly #timer: NodeJS.Timeout;

  private constructor(pids: readonly number[]) {
    this.#pids = pids;
    this.idleMb = this.#peakMb = this.#nowMb();
    this.#timer = setInterval(() => (this.#peakMb = Math.max(this.#peakMb, this.#nowMb())), SAMPLE_MS);
  }

  static async begin(browser: Browser): Promise<MemoryWatch> {
    const session = await browser.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    await session.detach();
    return new MemoryWatch(processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id));
  }

  /** Waits until the engine, which collects in the background, has let go what it will; for a minute at the most. */
  static async rest(browser: Browser): Promise<void> {
    const watch = await MemoryWatch.begin(browser);
    watch.end();
    const began = performance.now();
    let least = watch.idleMb;
    for (let since = began; performance.now() - since < REST_MS;) {
      await new Promise((resolve) => setTimeout(resolve, SAMPLE_MS));
      const now = watch.#nowMb();
      if (now > least * FALLS_BELOW || performance.now() - began > LONGEST_REST_MS) continue;
      [least, since] = [now, performance.now()];
    }
  }

  #nowMb(): number {
    return Math.max(0, ...this.#pids.map((pid) => privateMb(pid) ?? 0));
  }

  /** Ends the watch. The most that was seen, by `privateMb`; 0 where the system does not tell. */
  end(): number {
    clearInterval(this.#timer);
    return this.#peakMb;
  }
}

/** Resident memory of a process that is not shared with another, in MB; `null` when it has ended, and where this is no Linux. */
export function privateMb(pid: number): number | null {
  try {
    // proc(5): `Private_Clean`, `Private_Dirty` and `Private_Hugetlb`, in units of 1024 bytes
    const lines = readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8').matchAll(/^Private_\w+:\s+(\d+) kB/gm);
    return [...lines].reduce((sum, [, kb]) => sum + Number(kb), 0) * (KB / MB);
  } catch {
    return null;
  }
}
