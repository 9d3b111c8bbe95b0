// Every screen is drawn in the browser from the book on this device; the build only writes the shells.
export const prerender = true;
export const ssr = false;
export const trailingSlash = 'always';
