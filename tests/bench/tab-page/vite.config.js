import path from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';

const ROOT = path.resolve(import.meta.dirname, '../../..');

/** The tab's own component, bundled as the app bundles it, on a page that measures it. */
export default {
  root: import.meta.dirname,
  plugins: [svelte({ configFile: false })],
  resolve: { alias: { $lib: path.join(ROOT, 'src/lib') } },
  build: { outDir: path.join(ROOT, '.cache/tab-page'), emptyOutDir: true },
  logLevel: 'error',
};
