import js from '@eslint/js';
import globals from 'globals';
import svelte from 'eslint-plugin-svelte';
import tseslint from 'typescript-eslint';
import { importArrows } from './.eslint/import-arrows.js';
import { textsInOnePlace } from './.eslint/texts-in-one-place.js';
import svelteConfig from './svelte.config.js';

const CLOCK = 'core has no clock: take `now` as an argument.';
const CHANCE = 'core has no chance of its own: take a seed and use a generator that is given as an argument.';
const TIMER = 'core has no timers: return what is due and when, and let audio or state wait for it.';
const ZONE = "core does not read this machine's time zone: use the stored UTC offset and core/time.";
const PLATFORM = 'core runs in Node, in workers and in the page alike: take the value as an argument.';

/** @param {string} message @param {...string} names */
const restricted = (message, ...names) => names.map((name) => ({ name, message }));

/** @type {Partial<import('eslint').Linter.RulesRecord>} */
const notInCore = {
  'no-restricted-globals': [
    'error',
    ...restricted(
      TIMER,
      'setTimeout',
      'setInterval',
      'setImmediate',
      'queueMicrotask',
      'requestAnimationFrame',
    ),
    ...restricted(CLOCK, 'performance'),
    ...restricted(CHANCE, 'crypto'),
    ...restricted(
      PLATFORM,
      'document',
      'window',
      'self',
      'globalThis',
      'navigator',
      'localStorage',
      'indexedDB',
    ),
    ...restricted(PLATFORM, 'fetch', 'process', 'Buffer', 'console'),
  ],
  'no-restricted-properties': [
    'error',
    { object: 'Date', property: 'now', message: CLOCK },
    { object: 'Math', property: 'random', message: CHANCE },
  ],
};

const namedExports = {
  selector: 'ExportDefaultDeclaration',
  message: 'Export by name: a default export lets every importer call it something else.',
};
const boldAssertion = {
  selector: 'TSNonNullExpression > :not(MemberExpression[computed=true])',
  message: '`!` is for an index known to be in bounds (`row[i]!`); elsewhere handle the missing value.',
};
const POLICY =
  "the content security policy blocks style attributes: use a class, or a directive (`style:--level={x}`), which goes through the browser's style object.";
const AS_MARKUP =
  'text that came from a file, a link or a learner is never markup or code: build the element, or let a template show it as text.';
const textAsMarkup = [
  {
    selector: 'AssignmentExpression > MemberExpression.left[property.name=/^(innerHTML|outerHTML|srcdoc)$/]',
    message: AS_MARKUP,
  },
  {
    selector:
      'CallExpression > MemberExpression.callee[property.name=/^(insertAdjacentHTML|createContextualFragment|parseFromString|setHTMLUnsafe)$/]',
    message: AS_MARKUP,
  },
  {
    selector:
      "CallExpression > MemberExpression.callee[object.name='document'][property.name=/^write(ln)?$/]",
    message: AS_MARKUP,
  },
  { selector: "CallExpression[callee.name='eval']", message: AS_MARKUP },
  { selector: "NewExpression[callee.name='Function']", message: AS_MARKUP },
];
const blockedStyles = [
  { selector: "SvelteAttribute[key.name='style']", message: POLICY },
  { selector: 'SvelteAttribute[key.name=/^--/]', message: POLICY },
];
const coreSyntax = [
  { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: CLOCK },
  { selector: "CallExpression[callee.name='Date']", message: CLOCK },
  { selector: "NewExpression[callee.name='Date'][arguments.length>1]", message: ZONE },
  {
    selector:
      'CallExpression > MemberExpression.callee[property.name=/^(get|set)(Hours|Minutes|Date|Day|Month|FullYear|TimezoneOffset)$/]',
    message: ZONE,
  },
];

export default tseslint.config(
  {
    ignores: [
      'build/',
      '.svelte-kit/',
      'node_modules/',
      '.cache/',
      'tests/fixtures/',
      'tests/bench/bare-page/',
    ],
  },
  js.configs.recommended,
  tseslint.configs.strict,
  svelte.configs.recommended,
  svelte.configs.prettier,
  {
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      eqeqeq: 'error',
      'no-console': 'error',
      'object-shorthand': 'error',
      'prefer-const': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      'no-undef': 'off',
      'svelte/no-inner-declarations': 'off',
    },
  },
  {
    files: ['src/**/*.ts', 'tests/**/*.ts', 'sample-data/**/*.ts'],
    languageOptions: {
      parserOptions: { projectService: true, extraFileExtensions: ['.svelte'] },
    },
    rules: {
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/no-unnecessary-type-assertion': 'error',
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/require-await': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: {
      parserOptions: { parser: tseslint.parser, extraFileExtensions: ['.svelte'], svelteConfig },
    },
  },
  {
    files: ['**/*.svelte'],
    rules: {
      // the whole app lives at the root of its origin: paths are written as they are served
      'svelte/no-navigation-without-resolve': 'off',
      'svelte/no-at-html-tags': 'error',
      'svelte/button-has-type': 'error',
      // svelte-check reports these comments, and knows all warnings that the compiler gives
      'svelte/no-unused-svelte-ignore': 'off',
      'prefer-const': 'off',
      'svelte/prefer-const': 'error',
      // an effect names what it depends on by reading it
      '@typescript-eslint/no-unused-expressions': 'off',
      'svelte/max-lines-per-block': [
        'error',
        { script: 250, template: 250, style: 300, skipBlankLines: true, skipComments: true },
      ],
    },
  },
  {
    files: ['src/**/*.ts', 'src/**/*.svelte'],
    plugins: { house: importArrows },
    rules: {
      'house/import-arrows': 'error',
      'no-restricted-syntax': ['error', boldAssertion, ...blockedStyles, ...textAsMarkup],
    },
  },
  {
    files: ['src/lib/**/*.ts', 'src/**/*.svelte'],
    ignores: ['src/lib/texts/**'],
    plugins: { texts: textsInOnePlace },
    rules: { 'texts/texts-in-one-place': 'error' },
  },
  {
    files: ['src/**/*.ts'],
    rules: {
      'max-lines': ['error', { max: 350, skipBlankLines: true, skipComments: true }],
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      'no-restricted-syntax': ['error', namedExports, boldAssertion, ...textAsMarkup],
    },
  },
  {
    files: ['src/lib/core/**/*.ts'],
    rules: {
      ...notInCore,
      'no-restricted-syntax': ['error', namedExports, boldAssertion, ...textAsMarkup, ...coreSyntax],
    },
  },
  {
    files: ['src/headless/**/*.ts', 'sample-data/**/*.ts', '.house/**', 'tests/**'],
    languageOptions: { globals: globals.node },
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.cjs'],
    languageOptions: { sourceType: 'commonjs', globals: globals.node },
    rules: {
      '@typescript-eslint/no-require-imports': 'off',
      'no-var': 'off',
      'prefer-const': 'off',
      'object-shorthand': 'off',
    },
  },
);
