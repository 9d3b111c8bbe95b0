import type { ClientInit } from '@sveltejs/kit';
import { speakTo } from '$lib/texts/spoken';

/** The language is known before the first screen is read. */
export const init: ClientInit = async () => {
  document.documentElement.lang = await speakTo(navigator.languages);
};
