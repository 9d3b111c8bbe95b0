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
    csp: {
      mode: 'hash',
      directives: {
        'default-src': ['self'],
        'script-src': ['self'],
        'style-src': ['self'],
        // the one style attribute of kit itself: its live region for screen readers
        'style-src-attr': ['unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
        'img-src': ['self', 'data:'],
        'worker-src': ['self'],
        'connect-src': ['self'],
        'object-src': ['none'],
        'base-uri': ['none'],
        'form-action': ['self'],
      },
    },
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
