import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../../..');

/** The click's own modules, bundled as the app bundles them, on a page that measures them. */
export default {
  root: import.meta.dirname,
  resolve: { alias: { $lib: path.join(ROOT, 'src/lib') } },
  worker: { format: 'es' },
  build: { outDir: path.join(ROOT, '.cache/click-page'), emptyOutDir: true, assetsInlineLimit: 0 },
  logLevel: 'error',
};
