import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright';
import { findBrowser, LAUNCH } from '../../../.house/browser.js';

export interface Killable {
  context: BrowserContext;
  page: Page;
  /** SIGKILL to every process of this browser at once; resolves when they are gone. */
  kill(): Promise<void>;
}

const START_MS = 30_000;

/** A browser in a process group of its own, on a profile that outlives it; Playwright hides the processes that it starts itself. */
export async function startKillable(profile: string): Promise<Killable> {
  const portFile = path.join(profile, 'DevToolsActivePort');
  rmSync(portFile, { force: true });
  const args = [
    '--headless',
    '--no-sandbox',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
    '--window-size=390,844',
    '--no-first-run',
    '--disable-gpu',
    '--disable-breakpad',
    '--autoplay-policy=no-user-gesture-required',
    ...LAUNCH.args,
    'about:blank',
  ];
  const child = spawn(findBrowser() ?? '/usr/bin/chromium', args, { detached: true, stdio: 'ignore' });
  const group = child.pid;
  if (group === undefined) throw new Error('The browser did not start.');
  let isDead = false;
  const kill = async (): Promise<void> => {
    if (isDead) return;
    isDead = true;
    process.kill(-group, 'SIGKILL');
    while (isRunning(group)) await wait();
  };
  try {
    const port = await portOf(portFile);
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const context = browser.contexts()[0];
    const page = context?.pages()[0];
    if (!context || !page) throw new Error('The browser opened no page.');
    return { context, page, kill };
  } catch (error) {
    await kill();
    throw error;
  }
}

async function portOf(file: string): Promise<number> {
  for (const until = Date.now() + START_MS; Date.now() < until;) {
    const text = await readFile(file, 'utf8').catch(() => '');
    const port = Number(text.split('\n')[0]);
    if (port > 0 && text.includes('\n')) return port;
    await wait();
  }
  throw new Error('The browser told no port for its debugger.');
}

/** Whether any process of a group is left but those that only wait to be counted (Linux: man 5 proc_pid_stat). */
function isRunning(group: number): boolean {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .some((name) => {
      const [state, , ofGroup] = statOf(name);
      return Number(ofGroup) === group && state !== 'Z' && state !== 'X';
    });
}

/** State, parent and group of a process; nothing when it has gone meanwhile. */
function statOf(processId: string): string[] {
  try {
    return readFileSync(`/proc/${processId}/stat`, 'utf8')
      .replace(/^.*\) /s, '')
      .split(' ');
  } catch {
    return [];
  }
}

const wait = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 15));
