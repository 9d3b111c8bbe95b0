import type { TestProject } from 'vitest/node';
import { BUILD, ensureBuilt } from '../../.house/prepare.js';
import { serveApp } from '../../.house/serve.js';

declare module 'vitest' {
  export interface ProvidedContext {
    appUrl: string;
    buildFolder: string;
  }
}

/** Builds the app when its sources changed, and serves it to every test of this folder. */
export async function setup(project: TestProject) {
  const folder = process.env['PHRASEWRIGHT_BUILD']
    ? `.cache/${process.env['PHRASEWRIGHT_BUILD']}/build`
    : BUILD;
  if (folder === BUILD) ensureBuilt();
  const app = await serveApp({ folder, port: 0 });
  project.provide('appUrl', app.url);
  project.provide('buildFolder', folder);
  return () => app.close();
}
