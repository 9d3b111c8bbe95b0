// The package's own manifest names type files that it does not ship; these are the ones that it does.
declare module '@tonaljs/note' {
  export * from '@tonaljs/note/dist/index.mjs';
}
