import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { cacheControl, HEADERS, headersFile, IMMUTABLE } from '../../.house/headers.js';
import { hostConfig, HOSTS } from '../../.house/host-config.js';
import { serveApp } from '../../.house/serve.js';

/** Serves a few files as `npm start` serves the build. */
async function serveSome(...files: string[]): Promise<string> {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-headers-'));
  for (const file of files) {
    mkdirSync(path.join(folder, path.dirname(file)), { recursive: true });
    writeFileSync(path.join(folder, file), 'here');
  }
  const { url, close } = await serveApp({ folder, port: 0 });
  onTestFinished(async () => {
    await close();
    rmSync(folder, { recursive: true });
  });
  return url;
}

/** What a host that reads `_headers` sends with a path: later rules add, and `!` takes away what an earlier one said. */
function headersOf(pathname: string): Record<string, string> {
  const sent: Record<string, string> = {};
  let fits = false;
  for (const line of headersFile().split('\n')) {
    const [, minus, name = '', value] = /^ {2}(! )?([\w-]+)(?:: (.*))?$/.exec(line) ?? [];
    if (!line.startsWith(' ')) fits = pathname.startsWith(line.replace('*', ''));
    else if (fits && minus) Reflect.deleteProperty(sent, name);
    else if (fits && value !== undefined) sent[name] = value;
  }
  return sent;
}

test('what is printed for a host sends every header that npm start sends, and both ways of caching', () => {
  for (const host of HOSTS) {
    const config = hostConfig(host) ?? '';
    for (const [name, value] of Object.entries(HEADERS)) expect(config).toContain(`${name} "${value}"`);
    for (const pathname of ['/', IMMUTABLE]) expect(config).toContain(`"${cacheControl(pathname)}"`);
    expect(config).toContain('404.html');
  }
});

test('npm start sends what the file for hosts says, for a page, a service worker, a file that never changes and no file', async () => {
  const kept = `${IMMUTABLE}a.js`;
  const url = await serveSome('index.html', '404.html', 'service-worker.js', kept.slice(1));
  for (const pathname of ['/', '/service-worker.js', kept, '/no/such/']) {
    const { headers } = await fetch(url + pathname);
    const told = Object.entries(headersOf(pathname));
    expect(told.length).toBe(Object.keys(HEADERS).length + 1);
    for (const [name, value] of told)
      expect([pathname, name, headers.get(name)]).toEqual([pathname, name, value]);
  }
  // what is not there yet may be there after the next deploy
  expect((await fetch(`${url}${IMMUTABLE}gone.js`)).headers.get('Cache-Control')).toBe('no-cache');
});

test('of what may watch the learner the pages may ask for the microphone alone, and other origins for nothing', () => {
  const policies = HEADERS['Permissions-Policy']?.split(', ') ?? [];
  expect(policies).toContain('microphone=(self)');
  for (const feature of ['camera', 'geolocation', 'display-capture', 'accelerometer', 'gyroscope', 'usb']) {
    expect(policies).toContain(`${feature}=()`);
  }
  for (const policy of policies) expect(policy).toMatch(/^[a-z-]+=\((self)?\)$/);
  expect(HEADERS['Content-Security-Policy']).not.toMatch(/unsafe-(inline|eval)|https?:|\*/);
});

test('no header holds what would end it in a configuration', () => {
  for (const [name, value] of Object.entries(HEADERS)) expect(`${name}${value}`).not.toMatch(/["\\$\n]/);
});

test('a host that is not known is answered with those that are', () => {
  const { status, stderr } = spawnSync(process.execPath, ['.house/host-config.js', 'gopher'], {
    encoding: 'utf8',
  });
  expect(status).toBe(2);
  for (const host of HOSTS) expect(stderr).toContain(host);
});
