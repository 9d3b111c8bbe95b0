import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright';

const SAMPLE_MS = 100;
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
