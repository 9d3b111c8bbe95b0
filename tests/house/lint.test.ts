import path from 'node:path';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { describe, expect, test } from 'vitest';

const ROOT = path.resolve(import.meta.dirname, '../..');

// the house's own config; only the rules that need a type-checked file on disk are off
const eslint = new ESLint({ cwd: ROOT, overrideConfig: [tseslint.configs.disableTypeChecked] });

async function complaints(file: string, code: string): Promise<{ rule: string | null; message: string }[]> {
  const [result] = await eslint.lintText(code, { filePath: path.join(ROOT, file) });
  return (result?.messages ?? []).map(({ ruleId, message }) => ({ rule: ruleId, message }));
}

async function arrowComplaints(file: string, specifier: string) {
  const code = `import { thing } from '${specifier}';\nexport const held = [thing];\n`;
  const inFile = file.endsWith('.svelte') ? `<script lang="ts">\n${code}</script>\n` : code;
  const found = await complaints(file, inFile);
  return found.filter(({ rule }) => rule === 'house/import-arrows').map(({ message }) => message);
}

const CORE = 'src/lib/core';

describe('an import against the arrows', () => {
  test.each([
    [`${CORE}/rhythm/a.ts`, '../tune/tune', 'core/rhythm may not import core/tune/tune'],
    [`${CORE}/rhythm/a.ts`, '$lib/core/practice/level', 'core/rhythm may not import core/practice/level'],
    [`${CORE}/time/a.ts`, '../rhythm/rational', 'core/time may not import core/rhythm/rational'],
    [`${CORE}/practice/a.ts`, '../plan/plan', 'core/practice may not import core/plan/plan'],
    [`${CORE}/plan/a.ts`, '../progress/series', 'core/plan may not import core/progress/series'],
    [`${CORE}/tune/a.ts`, '../../store/book', 'core/tune may not import store/book'],
    [`${CORE}/tune/a.ts`, 'svelte', 'core/tune may not import svelte'],
    [`${CORE}/tune/a.ts`, 'node:fs', 'core/tune may not import node:fs'],
    [`${CORE}/practice/level.ts`, 'ts-fsrs', 'core/practice may not import ts-fsrs'],
    [`${CORE}/plan/plan.ts`, 'ts-fsrs', 'core/plan may not import ts-fsrs'],
    [`${CORE}/tune/a.ts`, '@noble/hashes/sha2.js', 'core/tune may not import @noble/hashes/sha2.js'],
    [`${CORE}/elsewhere/a.ts`, '../tune/tune', 'has no row'],
    ['src/lib/elsewhere/a.ts', '$lib/core/tune/tune', 'has no row'],
    ['src/lib/store/a.ts', '$lib/state/book.svelte', 'store may not import state/book'],
    ['src/lib/store/a.ts', 'uuid', 'store may not import uuid'],
    ['src/lib/audio/click.ts', '$lib/store/book', 'audio may not import store/book'],
    [
      'src/lib/audio/worklets/click.worklet.ts',
      '../../workers/standings',
      'audio may not import workers/standings',
    ],
    ['src/lib/workers/a.ts', '$lib/store/book', 'workers may not import store/book'],
    ['src/lib/offline/updates.ts', '$lib/core/time/moment', 'offline may not import core/time/moment'],
    ['src/lib/state/a.svelte.ts', '$lib/ui/Rim.svelte', 'state may not import ui/Rim'],
    ['src/lib/state/a.svelte.ts', 'dexie', 'state may not import dexie'],
    ['src/lib/state/a.svelte.ts', '$app/navigation', 'state may not import $app/navigation'],
    ['src/lib/ui/A.svelte', '$lib/state/book.svelte', 'ui may not import state/book'],
    ['src/lib/ui/A.svelte', '../audio/click', 'ui may not import audio/click'],
    ['src/lib/ui/board/A.svelte', 'chart.js', 'ui may not import chart.js'],
    ['src/lib/ui/A.svelte', './charts/Chart.svelte', 'ui may not import ui/charts/Chart'],
    ['src/routes/+page.svelte', '$lib/store/book', 'routes may not import store/book'],
    ['src/routes/tune/+page.svelte', '../../lib/audio/click', 'routes may not import audio/click'],
    ['src/routes/+page.svelte', 'chart.js/auto', 'routes may not import chart.js/auto'],
    ['src/headless/main.ts', '../lib/store/book', 'headless may not import store/book'],
    ['src/headless/main.ts', 'dexie', 'headless may not import dexie'],
    [
      'src/service-worker/index.ts',
      '../lib/offline/updates',
      'service-worker may not import offline/updates',
    ],
    ['src/service-worker/index.ts', '$lib/core/tune/tune', 'service-worker may not import core/tune/tune'],
    ['src/lib/core/tune/a.ts', '../../../../tests/fixtures/x', 'core/tune may not import'],
  ])('%s from %s', async (file, specifier, expected) => {
    const found = await arrowComplaints(file, specifier);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(expected);
    expect(found[0]).toMatch(/It may import: .+\. Why: .{20,}/);
  });

  test('is found in every way to write one', async () => {
    const code = [
      "export { a } from '$lib/store/a';",
      "export * from '$lib/store/b';",
      "export const c = () => import('$lib/store/c');",
      "export type D = import('$lib/store/d').D;",
      "import type { E } from '$lib/store/e?worker&url';",
      'export type F = E;',
    ].join('\n');
    const found = await complaints('src/lib/core/tune/a.ts', code);
    expect(found.filter(({ rule }) => rule === 'house/import-arrows')).toHaveLength(5);
  });
});

describe('an import along the arrows', () => {
  test.each([
    [`${CORE}/tune/a.ts`, '../rhythm/rational'],
    [`${CORE}/tune/a.ts`, './tune'],
    [`${CORE}/progress/a.ts`, '../plan/plan'],
    [`${CORE}/book/a.ts`, 'valibot'],
    [`${CORE}/book/checksum.ts`, '@noble/hashes/sha2.js'],
    [`${CORE}/practice/memory.ts`, 'ts-fsrs'],
    [`${CORE}/practice/memory.ts`, './records'],
    [`${CORE}/practice/standing.ts`, './memory'],
    ['src/lib/store/a.ts', 'dexie'],
    ['src/lib/store/a.ts', '../core/book/book'],
    ['src/lib/audio/click.ts', './worklets/click.worklet.ts?worker&url'],
    ['src/lib/workers/a.ts', '$lib/core/plan/plan'],
    ['src/lib/offline/updates.ts', './messages'],
    ['src/lib/state/a.svelte.ts', '$lib/offline/updates'],
    ['src/lib/state/a.svelte.ts', 'svelte/reactivity'],
    ['src/lib/state/a.svelte.ts', 'uuid'],
    ['src/lib/ui/A.svelte', '$lib/core/tune/tune'],
    ['src/lib/ui/charts/A.svelte', 'chart.js'],
    ['src/lib/ui/charts/A.svelte', '../Choice.svelte'],
    ['src/routes/+page.svelte', '$lib/ui/charts/A.svelte'],
    ['src/routes/+page.svelte', '$app/navigation'],
    ['src/routes/tune/+page.svelte', '../parts.ts'],
    ['src/headless/main.ts', 'node:fs'],
    ['src/headless/main.ts', '$lib/core/plan/plan'],
    ['src/service-worker/index.ts', '../lib/offline/messages'],
    ['src/service-worker/index.ts', 'workbox-precaching'],
    ['tests/core/tune/a.test.ts', '../../../src/lib/store/book'],
  ])('%s from %s', async (file, specifier) => {
    expect(await arrowComplaints(file, specifier)).toEqual([]);
  });
});

describe('core has no clock, no chance, no timers and no time zone of its own', () => {
  test.each([
    ['Date.now()', 'no clock'],
    ['new Date()', 'no clock'],
    ['Date()', 'no clock'],
    ['performance.now()', 'no clock'],
    ['Math.random()', 'no chance'],
    ['crypto.randomUUID()', 'no chance'],
    ['setTimeout(() => 1, 5)', 'no timers'],
    ['setInterval(() => 1, 5)', 'no timers'],
    ['queueMicrotask(() => 1)', 'no timers'],
    ['new Date(2026, 1, 1)', 'time zone'],
    ['new Date(5).getHours()', 'time zone'],
    ["fetch('/')", 'Node, in workers and in the page'],
    ['document.title', 'Node, in workers and in the page'],
  ])('%s', async (expression, expected) => {
    const found = await complaints('src/lib/core/time/a.ts', `export const made = ${expression};\n`);
    expect(found.map(({ message }) => message)).toEqual([expect.stringContaining(expected)]);
    const outside = await complaints('src/lib/state/a.ts', `export const made = ${expression};\n`);
    expect(outside).toEqual([]);
  });

  test('a moment that was given is welcome', async () => {
    const code =
      'export const day = (now: number) => new Date(now).toISOString() + new Date(now).getUTCHours();\n';
    expect(await complaints('src/lib/core/time/a.ts', code)).toEqual([]);
  });
});

test('any, default exports and bold assertions are refused', async () => {
  const code = 'const f = (x: any) => x.y!;\nexport default f;\n';
  const rules = (await complaints('src/lib/state/a.ts', code)).map(({ rule }) => rule);
  expect(rules.sort()).toEqual([
    '@typescript-eslint/no-explicit-any',
    'no-restricted-syntax',
    'no-restricted-syntax',
  ]);
  expect(
    await complaints('src/lib/state/a.ts', 'export const first = (row: number[]) => row[0]!;\n'),
  ).toEqual([]);
});

test('style attributes, which the content security policy would block, are refused; style directives are not', async () => {
  const bad = await complaints('src/lib/ui/A.svelte', '<p style="color: red">x</p>\n');
  expect(bad.map(({ message }) => message)).toEqual([expect.stringContaining('content security policy')]);
  expect(await complaints('src/lib/ui/A.svelte', '<p style:--level={0.5}>x</p>\n')).toEqual([]);
});

describe('text made into markup or code is refused', () => {
  test.each([
    ['src/lib/state/a.ts', "document.body.innerHTML = 'a';"],
    ['src/lib/state/a.ts', "document.body.insertAdjacentHTML('beforeend', 'a');"],
    ['src/lib/state/a.ts', "document.write('a');"],
    ['src/lib/core/tune/a.ts', "export const held: unknown = eval('1');"],
    ['src/lib/core/tune/a.ts', "export const held = new Function('return 1');"],
    ['src/lib/ui/A.svelte', "<script>\n  document.body.outerHTML = 'a';\n</script>\n"],
    ['src/lib/ui/A.svelte', '<script>\n  let { title } = $props();\n</script>\n\n{@html title}\n'],
  ])('%s: %s', async (file, code) => {
    const found = await complaints(file, code);
    expect(found.some(({ rule }) => /no-restricted-syntax|no-at-html-tags/.test(rule ?? ''))).toBe(true);
  });
});

describe('a text outside src/lib/texts', () => {
  const texts = async (file: string, code: string) =>
    (await complaints(file, code)).filter(({ rule }) => rule === 'texts/texts-in-one-place').length;

  test.each([
    ['src/lib/core/plan/a.ts', "export const a = () => 'Nothing to plan.';\n", 1],
    ['src/lib/core/plan/a.ts', 'export const a = (n: number) => `Only ${n} measures are left of it`;\n', 1],
    ['src/lib/store/a.ts', "export const a = () => new Trouble('full', 'The device is full.');\n", 1],
    ['src/lib/ui/A.svelte', '<p>gone</p>\n', 1],
    ['src/lib/ui/A.svelte', '<button type="button" aria-label="Close"></button>\n', 1],
    ['src/lib/ui/A.svelte', '<Stepper label="Goal tempo" />\n', 1],
    // names in records, in markup and in code, what only programmers read, and the app's own name
    ['src/lib/core/plan/a.ts', "export const kind = 'new figure';\n", 0],
    [
      'src/lib/core/plan/a.ts',
      "export const a = () => new Error('The plan has no lines to choose from.');\n",
      0,
    ],
    [
      'src/lib/core/notation/a.ts',
      'export const a = (n: number) => `<direction placement="${n} above all"/>`;\n',
      0,
    ],
    ['src/lib/ui/A.svelte', '<p class="small soft num">Phrasewright</p>\n', 0],
    ['src/lib/texts/a.ts', "export const a = 'Nothing to plan.';\n", 0],
  ])('%s: %s', async (file, code, count) => {
    expect(await texts(file, code)).toBe(count);
  });
});
