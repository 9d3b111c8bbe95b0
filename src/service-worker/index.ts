/// <reference types="@sveltejs/kit" />
import { version } from '$service-worker';
import { isOfflineMessage, MEND, STEP_BACK } from '../lib/offline/messages';
import { SHARE_TARGET, takeShared } from '../lib/offline/handed-in';
import { cacheOf } from '../lib/offline/versions';
import { OfflineCopy, type ListedFile } from './offline-copy';

declare const self: ServiceWorkerGlobalScope & {
  /** Every file of the build, written in by .house/precache-adapter.js. */
  __WB_MANIFEST: ListedFile[];
};

const copy = new OfflineCopy(cacheOf(version), self.__WB_MANIFEST);

self.addEventListener('install', (event) => {
  event.waitUntil(copy.install(event));
});

// The first page may go offline before it is ever reloaded: it is served from the device from here on.
self.addEventListener('activate', (event) => {
  event.waitUntil(copy.takeOver().then(() => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== self.location.origin) return;
  if (request.method === 'POST' && pathname === SHARE_TARGET) event.respondWith(takeShared(request));
  if (request.method !== 'GET') return;
  event.respondWith(copy.answer(request));
});

self.addEventListener('message', (event) => {
  if (!isOfflineMessage(event.data)) return;
  const answerWith = async (work: Promise<unknown>): Promise<void> => event.ports[0]?.postMessage(await work);
  if (event.data.type === STEP_BACK) event.waitUntil(answerWith(copy.stepBack()));
  else if (event.data.type === MEND) event.waitUntil(answerWith(copy.mend()));
  else event.waitUntil(self.skipWaiting());
});
