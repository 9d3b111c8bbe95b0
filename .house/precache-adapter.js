import path from 'node:path';
import adapter from '@sveltejs/adapter-static';
import { injectManifest } from 'workbox-build';

/** Larger than any file of the app; a bigger one would be left out of the offline copy, which is an error here. */
const LARGEST_FILE_BYTES = 20 * 1024 * 1024;

/**
 * The static adapter, which then writes the list of all built files into the service worker. Kit's own lists
 * leave out workers and worklets, and an app without its click is not offline.
 * @param {{ out: string }} options folder of the build
 * @returns {import('@sveltejs/kit').Adapter}
 */
export function precacheAdapter({ out }) {
  const inner = adapter({ pages: out, fallback: '404.html' });
  return {
    name: 'precache-adapter',
    async adapt(builder) {
      await inner.adapt(builder);
      const file = path.resolve(out, 'service-worker.js');
      const { count, size, warnings } = await injectManifest({
        swSrc: file,
        swDest: file,
        globDirectory: out,
        globPatterns: ['**/*'],
        globIgnores: ['service-worker.js'],
        dontCacheBustURLsMatching: /_app\/immutable\//,
        maximumFileSizeToCacheInBytes: LARGEST_FILE_BYTES,
        modifyURLPrefix: { '': '/' },
      });
      if (warnings.length > 0) throw new Error(`The offline copy is not complete: ${warnings.join(' ')}`);
      builder.log.success(`Offline copy: ${String(count)} files, ${String(Math.round(size / 1024))} kB`);
    },
  };
}
