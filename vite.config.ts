import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vite';

export default defineConfig({
  plugins: [sveltekit()],
  worker: { format: 'es' },
  // the content security policy has no data: for scripts, styles or fonts, and an inlined file cannot be precached
  build: { assetsInlineLimit: 0, rollupOptions: { output: { experimentalMinChunkSize: 10_000 } } },
  server: { fs: { allow: ['sample-data'] } },
});
