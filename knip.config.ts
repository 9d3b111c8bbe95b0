import type { KnipConfig } from 'knip';

/**
 * `!` marks what the shipped app and headless are made of: `--production` looks at that alone and so finds a
 * module which only tests use. In the ordinary run tests, scripts and bench count as users too.
 */
const config: KnipConfig = {
  entry: [
    'src/headless/main.ts!',
    'src/lib/workers/**/*.worker.ts!',
    'src/lib/offline/start-watch.ts!',
    'src/lib/audio/worklets/**/*.worklet.ts!',
    'sample-data/**/*.ts!',
    '.house/*.{js,cjs}',
    'tests/**/*.test.ts',
    'tests/bench/run.ts',
    'tests/bench/groups/*.ts',
    'tests/bench/click-page/{main,recorder.worklet}.ts',
    'tests/bench/click-page/vite.config.js',
    'tests/**/make-*.ts',
  ],
  project: ['src/**/*.{ts,svelte,js}!', 'sample-data/**/*.ts!', '.house/**', '.eslint/**', 'tests/**/*.ts'],
  // run by their path, or by the system's own name
  ignoreDependencies: ['svelte-check'],
  ignoreBinaries: ['apt-get'],
  ignoreExportsUsedInFile: true,
};

export default config;
