import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { playwright } from '@vitest/browser-playwright';
import { defineConfig } from 'vitest/config';
import { findBrowser } from './.house/browser.js';

const resolve = { alias: { $lib: fileURLToPath(new URL('src/lib', import.meta.url)) } };
const executablePath = findBrowser() ?? '/usr/bin/chromium';

/** Folders of tests that need a real browser around a module: IndexedDB, Web Audio, runes, components. */
const inChromium = ['store', 'audio', 'state', 'ui', 'offline'].map((name) => `tests/${name}/**/*.test.ts`);

export default defineConfig({
  test: {
    projects: [
      {
        resolve,
        test: {
          name: 'node',
          // starting the linter or a long fold takes seconds on a busy machine
          testTimeout: 30_000,
          include: ['tests/**/*.test.ts'],
          exclude: [...inChromium, 'tests/browser/**', 'tests/bench/**', 'tests/fixtures/**'],
        },
      },
      {
        resolve,
        plugins: [svelte({ configFile: false })],
        worker: { format: 'es' },
        // found in a worker only, when the tests already run
        optimizeDeps: { include: ['fflate'] },
        test: {
          name: 'chromium',
          include: inChromium,
          // one kind of test after the other: two browsers at a time are as many as two cores carry
          sequence: { groupOrder: 1 },
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              launchOptions: {
                executablePath,
                chromiumSandbox: false,
                args: ['--disable-background-networking', '--autoplay-policy=no-user-gesture-required'],
              },
            }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      {
        resolve,
        test: {
          name: 'app',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: 'tests/browser/serve-app.ts',
          testTimeout: 120_000,
          hookTimeout: 120_000,
          maxWorkers: 2,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
