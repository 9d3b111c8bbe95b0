import { precacheAdapter } from './.house/precache-adapter.js';

/** PHRASEWRIGHT_BUILD=NAME builds into `.cache/NAME/build`, beside other builds of the same tree. */
const name = process.env['PHRASEWRIGHT_BUILD'];

/** @type {import('@sveltejs/kit').Config} */
export default {
  kit: {
    adapter: precacheAdapter({ out: name ? `.cache/${name}/build` : 'build' }),
    ...(name ? { outDir: `.cache/${name}/kit` } : {}),
    // absolute paths: a deep address served from the offline copy must find the same files
    paths: { relative: false },
    // for `vite dev`, and the place where the build writes the policy of .house/headers.js
    csp: { mode: 'hash', directives: { 'script-src': ['self'] } },
    serviceWorker: { register: false },
    version: { pollInterval: 0 },
    typescript: {
      config(config) {
        const further = ['sample-data/**/*.ts', '.house/*.js', '.eslint/*.js', '*.config.js', '*.config.ts'];
        config['include'].push(...further.map((files) => `../${files}`));
      },
    },
  },
};
