import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../../..');

/** The big book's maker and the app's own tables, bundled into one script for a page of the app's origin. */
export default {
  root: import.meta.dirname,
  resolve: { alias: { $lib: path.join(ROOT, 'src/lib') } },
  build: {
    ...{ outDir: path.join(ROOT, '.cache/scale-page'), emptyOutDir: true, minify: false },
    lib: { entry: 'main.ts', formats: ['iife'], name: 'scalePage', fileName: () => 'scale.js' },
  },
  logLevel: 'error',
};
