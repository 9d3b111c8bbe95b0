import { MediaQuery } from 'svelte/reactivity';

/** Whether the wide layout holds: the rim at the left, each part in one row (LOOK.md section 8). */
export const wideScreen = new MediaQuery('min-width: 1000px');
