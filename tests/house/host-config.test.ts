import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { cacheControl, HEADERS, IMMUTABLE } from '../../.house/headers.js';
import { hostConfig, HOSTS } from '../../.house/host-config.js';

test('what is printed for a host sends every header that npm start sends, and both ways of caching', () => {
  for (const host of HOSTS) {
    const config = hostConfig(host) ?? '';
    for (const [name, value] of Object.entries(HEADERS)) expect(config).toContain(`${name} "${value}"`);
    for (const pathname of ['/', IMMUTABLE]) expect(config).toContain(`"${cacheControl(pathname)}"`);
    expect(config).toContain('404.html');
  }
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
