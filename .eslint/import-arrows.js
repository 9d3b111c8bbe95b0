import path from 'node:path';

/**
 * The import arrows of the house, as one table: folder of src (without lib/) -> what its files may import.
 * An entry of `folders` is a folder, or one file of a folder without its ending. An entry of `packages` is a
 * package name, or a prefix that ends in `*`. The most specific row that fits a file is its row, and files of one
 * row may always import each other.
 *
 * @typedef {{ folders: readonly string[], packages: readonly string[], why: string }} Row
 */

/** Lowest first: a folder of core may import itself and those before it. */
export const CORE_ORDER = /** @type {const} */ ([
  'time',
  'rhythm',
  'tune',
  'pluck',
  'notation',
  'arrange',
  'listen',
  'practice',
  'book',
  'plan',
  'progress',
]);

const PURE =
  'core is pure and knows neither the page, nor storage, nor sound, nor any package but those named for it: ' +
  'take the value as an argument, or move this file to the folder that owns the effect';

/** @type {Record<string, Row>} */
const coreRows = Object.fromEntries(
  CORE_ORDER.map((name, index) => [
    `core/${name}`,
    {
      folders: ['texts', ...CORE_ORDER.slice(0, index + 1).map((lower) => `core/${lower}`)],
      packages: name === 'book' ? ['valibot', '@noble/hashes', 'fflate'] : ['valibot'],
      why: `${PURE}; inside core imports go downwards only (${CORE_ORDER.join(' < ')}): move the shared part into the lower folder`,
    },
  ]),
);

/** @type {Record<string, Row>} */
export const ARROWS = {
  ...coreRows,
  'core/notation/musicxml': {
    folders: coreRows['core/notation']?.folders ?? [],
    packages: ['saxes', 'fflate'],
    why: PURE,
  },
  'core/practice/memory': {
    folders: coreRows['core/practice']?.folders ?? [],
    packages: ['valibot', 'ts-fsrs'],
    why: PURE,
  },
  texts: {
    folders: [],
    packages: [],
    why: 'texts are words and nothing else: pass what they name in as an argument',
  },
  store: {
    folders: ['core', 'texts'],
    packages: ['dexie', 'fflate'],
    why: 'store only keeps records: put a rule in core, and join store with the rest in state',
  },
  audio: {
    folders: ['core', 'texts', 'script-urls'],
    packages: [],
    why: 'audio only renders what core computed: pass settings in as arguments, and join it with the rest in state',
  },
  workers: {
    folders: ['core', 'texts', 'script-urls', 'store/log-reader', 'workers/backup.worker'],
    packages: [],
    why: 'a worker is a mailbox around core, and the practice desk reads the log by itself: put the work in core, and pass other data in by message',
  },
  'workers/backup-desk': {
    folders: ['workers', 'core', 'store', 'texts'],
    packages: [],
    why: 'the backup is written and read where the book is kept: put rules in core, and what touches the tables in store',
  },
  'workers/backup.worker': {
    folders: ['workers', 'texts'],
    packages: [],
    why: 'a worker is a mailbox: put the work in workers/backup-desk',
  },
  offline: {
    folders: ['script-urls', 'texts'],
    packages: [],
    why: 'offline knows only its own messages: report through the callbacks it was given, and act on them in state',
  },
  state: {
    folders: ['core', 'texts', 'store', 'audio', 'workers', 'offline', 'sample-data'],
    packages: ['svelte', 'uuid', 'qr'],
    why: 'state joins core, store, audio, workers and offline, and never knows who shows it: let a component read it instead',
  },
  ui: {
    folders: ['core', 'texts'],
    packages: ['svelte'],
    why: 'a component takes props and calls back: let the route read state and pass values in; charts are drawn in ui/charts',
  },
  'ui/charts': {
    folders: ['ui', 'core', 'texts'],
    packages: ['svelte', 'chart.js'],
    why: 'a chart takes series as props and holds the only Chart.js: let the route read state and pass values in',
  },
  routes: {
    folders: ['state', 'ui', 'core', 'texts'],
    packages: ['svelte', '$app/*'],
    why: 'a route reads state and places components: reach store, audio, workers and offline through a class in state',
  },
  headless: {
    folders: ['core', 'texts'],
    packages: ['node:*'],
    why: 'headless is core from a terminal: it may use core and Node, nothing of the browser',
  },
  'service-worker': {
    folders: ['offline/handed-in', 'offline/messages', 'offline/versions'],
    packages: ['workbox-*', '$service-worker'],
    why: 'the service worker is built apart from the app: it may use Workbox and what offline shares with it',
  },
};

const LIB = 'src/lib/';
const SRC = 'src/';

/**
 * Place of a file in the house: `core/rhythm/click-times` for `src/lib/core/rhythm/click-times.ts`,
 * `sample-data/...` for the demo data, null for a file outside both.
 * @param {string} file path relative to the repository, with `/`
 * @returns {string | null}
 */
function placeOf(file) {
  const bare = file.replace(/(\.svelte)?\.(ts|js|svelte|css|json)$/, '');
  if (bare.startsWith(LIB)) return bare.slice(LIB.length);
  if (bare.startsWith(SRC)) return bare.slice(SRC.length);
  return bare.startsWith('sample-data/') ? bare : null;
}

/** @param {string} place @param {string} folder */
const isWithin = (place, folder) => place === folder || place.startsWith(`${folder}/`);

/**
 * The most specific row for a place, or null when the table has none.
 * @param {string} place
 */
function rowOf(place) {
  const names = Object.keys(ARROWS).filter((name) => isWithin(place, name));
  const name = names.sort((a, b) => b.length - a.length)[0];
  const row = name === undefined ? undefined : ARROWS[name];
  return name !== undefined && row ? { name, row } : null;
}

/** @param {string} specifier @param {string} pattern */
function fitsPackage(specifier, pattern) {
  if (pattern.endsWith('*')) return specifier.startsWith(pattern.slice(0, -1));
  return isWithin(specifier, pattern);
}

/** @param {Row} row */
function allowedText(row) {
  const allowed = [...row.folders, ...row.packages];
  return allowed.length > 0 ? allowed.join(', ') : 'nothing outside its own folder';
}

/**
 * What is wrong with one import, or null.
 * @param {string} root absolute path of the repository
 * @param {string} file absolute path of the importing file
 * @param {string} specifier as written
 * @returns {{ from: string, to: string, allowed: string, why: string } | null}
 */
export function findForbiddenArrow(root, file, specifier) {
  const from = placeOf(path.relative(root, file).split(path.sep).join('/'));
  if (from === null || !from.includes('/')) return null;
  const found = rowOf(from);
  if (!found) {
    const why = 'this folder has no row in .eslint/import-arrows.js: put the file into a folder of the house';
    return { from: path.posix.dirname(from), to: specifier, allowed: 'nothing yet', why };
  }
  const { name, row } = found;
  const bare = specifier.replace(/\?.*$/, '');
  const bad = { from: name, to: specifier, allowed: allowedText(row), why: row.why };
  let target = null;
  if (bare.startsWith('.')) {
    target = placeOf(
      path
        .relative(root, path.resolve(path.dirname(file), bare))
        .split(path.sep)
        .join('/'),
    );
    if (target === null) return bad;
  } else if (isWithin(bare, '$lib')) {
    target = placeOf(`${LIB}${bare.slice('$lib/'.length)}`);
  }
  if (target === null) return row.packages.some((pattern) => fitsPackage(bare, pattern)) ? null : bad;
  const place = target;
  // ui/charts lies in ui but is a folder of its own: the first screen must not pull Chart.js in through ui
  const home = rowOf(place)?.name === name;
  const allowed = row.folders.some((folder) => isWithin(place, folder));
  return home || allowed ? null : { ...bad, to: place };
}

/** @type {import('eslint').Rule.RuleModule} */
const rule = {
  meta: {
    type: 'problem',
    docs: { description: 'keep imports inside the arrows of the house (DEVELOPERS.md)' },
    messages: {
      forbidden: '{{from}} may not import {{to}}. It may import: {{allowed}}. Why: {{why}}.',
    },
    schema: [],
  },
  create(context) {
    /** @param {any} source */
    const check = (source) => {
      if (source?.type !== 'Literal' || typeof source.value !== 'string') return;
      const data = findForbiddenArrow(context.cwd, context.filename, source.value);
      if (data) context.report({ node: source, messageId: 'forbidden', data });
    };
    /** @param {any} node */
    const checkSource = (node) => {
      check(node.source);
    };
    return {
      ImportDeclaration: checkSource,
      ExportNamedDeclaration: checkSource,
      ExportAllDeclaration: checkSource,
      ImportExpression: checkSource,
      TSImportType: checkSource,
    };
  },
};

export const importArrows = { rules: { 'import-arrows': rule } };
