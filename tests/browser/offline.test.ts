import { expect, test } from 'vitest';
import { openApp, serveOwn } from './harness';

const ROUTES = ['/', '/tunes/', '/add/', '/tune/?id=none', '/drill/?id=none', '/progress/', '/settings/'];

test('x', async () => {
  const server = await serveOwn();
  const app = await openApp({ url: server.url });
  await app.page.evaluate(() => navigator.serviceWorker.register('/service-worker.js'));
  expect(ROUTES.length).toBe(7);
});
