import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { Builder, By, type WebDriver } from 'selenium-webdriver';
import { onTestFinished } from 'vitest';
import { serveOwn } from './harness';

/** WebKitGTK from Debian's `webkit2gtk-driver`, on a screen of Xvfb, driven by WebDriver. */
const DRIVER = '/usr/bin/WebKitWebDriver';
const SCREEN = '/usr/bin/Xvfb';

/** The bare window that comes with the driver; its folder's name carries the version of the library's interface. */
function findWindow(): string | null {
  const root = `/usr/lib/${process.arch === 'arm64' ? 'aarch64' : 'x86_64'}-linux-gnu`;
  if (!existsSync(root)) return null;
  return (
    readdirSync(root)
      .filter((name) => name.startsWith('webkit2gtk-4'))
      .map((name) => path.join(root, name, 'MiniBrowser'))
      .find((file) => existsSync(file)) ?? null
  );
}

export const isWebKitThere = existsSync(DRIVER) && existsSync(SCREEN) && findWindow() !== null;

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => {
        resolve(port);
      });
    });
  });
}

function start(program: string, args: readonly string[], env: NodeJS.ProcessEnv): void {
  const child = spawn(program, args, { env, stdio: 'ignore' });
  onTestFinished(() => {
    child.kill();
  });
}

/** A session in WebKitGTK on the built app from a server of its own, ended with the test. */
export async function openWebKit() {
  const [screen, port] = [90 + (process.pid % 900), await freePort()];
  const env = { ...process.env, DISPLAY: `:${String(screen)}` };
  start(SCREEN, [env.DISPLAY, '-screen', '0', '1280x900x24', '-nolisten', 'tcp'], env);
  start(DRIVER, [`--port=${String(port)}`], env);
  const builder = new Builder().usingServer(`http://127.0.0.1:${String(port)}`).withCapabilities({
    browserName: 'MiniBrowser',
    'webkitgtk:browserOptions': { binary: findWindow(), args: ['--automation'] },
  });
  const driver = await untilMade(() => builder.build());
  onTestFinished(() => driver.quit());
  const server = await serveOwn();
  await driver.get(server.url);
  return { driver, server };
}

/** Both programs need a moment before they answer. */
async function untilMade(make: () => Promise<WebDriver>): Promise<WebDriver> {
  for (let time = 0; ; time++) {
    try {
      return await make();
    } catch (error) {
      if (time === 20) throw error;
      await wait(250);
    }
  }
}

/** Any element by its role-like tag and the words in it. */
export const withWords = (tag: string, words: string) =>
  By.xpath(`//${tag}[contains(normalize-space(.), "${words}")]`);
