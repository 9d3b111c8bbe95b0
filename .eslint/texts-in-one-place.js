/** A capital and another word, four words in a row, or words that end a sentence. Two or three small words are a name in records or in code. */
const PROSE =
  /^["„“(]?[A-Z][a-z'’]+[,;:.]? +[a-z]|([a-z'’]+[,;:.]? +){3}[a-z]{2,}|[a-z]{2,} +[a-z]{2,}[.!?…]$|^[A-Z][a-z]+[.!?…]$/;
const WORD = /[a-z]{2,}/i;
/** Attributes that hold names for machines. */
const FOR_MACHINES =
  /^(accept|allow|autocapitalize|autocomplete|class|d|for|form|href|id|inputmode|media|name|points|preserveAspectRatio|rel|role|sizes|src|style|target|transform|type|value|viewBox|xmlns|data-.*|aria-(?!label$|description$|roledescription$|valuetext$).*)$/;
/** What readers and writers of files look for or write, and the app's own name. */
const WORDS_OF_FILES = new Set(['No tab', 'went wrong in measure', 'Rar!']);
const NAME = /^[^\p{L}]*Phrasewright[^\p{L}]*$/u;

/** @param {any} node */
function isForProgrammers(node) {
  for (let up = node.parent; up; up = up.parent) {
    if (up.type.startsWith('TS') && up.type !== 'TSAsExpression' && up.type !== 'TSSatisfiesExpression')
      return true;
    if (up.type === 'NewExpression' && /^(Range|Type|Syntax)?Error$/.test(up.callee.name ?? '')) return true;
    if (/^(Import|Export.*)Declaration$|Function|^Program$|^Block/.test(up.type))
      return up.type === 'ImportDeclaration';
  }
  return false;
}

/** @type {import('eslint').Rule.RuleModule} */
const rule = {
  meta: {
    type: 'problem',
    docs: { description: 'keep what is said to a learner in src/lib/texts (DEVELOPERS.md)' },
    messages: {
      text: 'A text outside src/lib/texts is said in English only: "{{text}}". Put it into its area there.',
    },
    schema: [],
  },
  create(context) {
    /** @param {any} node @param {string} text */
    const report = (node, text) => {
      context.report({
        node,
        messageId: 'text',
        data: { text: text.trim().replace(/\s+/g, ' ').slice(0, 60) },
      });
    };
    return {
      /** @param {any} node */
      Literal(node) {
        if (typeof node.value !== 'string' || WORDS_OF_FILES.has(node.value) || !PROSE.test(node.value))
          return;
        if (!isForProgrammers(node)) report(node, node.value);
      },
      /** @param {any} node */
      TemplateLiteral(node) {
        const text = node.quasis.map((/** @type {any} */ quasi) => quasi.value.cooked).join('0');
        if (PROSE.test(text) && !text.startsWith('<') && !isForProgrammers(node)) report(node, text);
      },
      /** @param {any} node */
      SvelteText(node) {
        if (node.parent.type === 'SvelteStyleElement' || NAME.test(node.value)) return;
        if (WORD.test(node.value)) report(node, node.value);
      },
      /** @param {any} node */
      SvelteAttribute(node) {
        if (FOR_MACHINES.test(node.key.name)) return;
        for (const value of node.value) {
          if (value.type !== 'SvelteLiteral') continue;
          if (PROSE.test(value.value) || /^[A-Z][a-z]/.test(value.value)) report(value, value.value);
        }
      },
    };
  },
};

export const textsInOnePlace = { rules: { 'texts-in-one-place': rule } };
