import {
  cleanupOutdatedCaches,
  matchPrecache,
  precacheAndRoute,
  type PrecacheEntry,
} from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';
import { isOfflineMessage } from '../lib/offline/messages';

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (PrecacheEntry | string)[] };

const NOT_FOUND = '/404.html';

// A screen's address keeps its subject in the query (`/tune/?id=...`), and every subject opens the same shell.
precacheAndRoute(self.__WB_MANIFEST, { ignoreURLParametersMatching: [/^/] });
cleanupOutdatedCaches();

/** Only what precaching did not know arrives here: a missing last slash, or a path that is no screen. */
registerRoute(
  new NavigationRoute(async ({ url }) => {
    const shell = `${url.pathname.replace(/\/+$/, '')}/index.html`;
    return (await matchPrecache(shell)) ?? (await matchPrecache(NOT_FOUND)) ?? Response.error();
  }),
);

self.addEventListener('message', (event) => {
  if (isOfflineMessage(event.data)) event.waitUntil(self.skipWaiting());
});

// The first page may go offline before it is ever reloaded: it is served from the device from here on.
self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim());
});
