import adapter from '@sveltejs/adapter-static';

const OUT = '../../../.cache/bare-page';

/** @type {import('@sveltejs/kit').Config} */
export default {
  kit: { adapter: adapter({ pages: `${OUT}/build`, fallback: '404.html' }), outDir: `${OUT}/kit` },
};
