export type DrillKeyAction = 'touch' | 'end' | 'pause' | 'slower' | 'faster' | 'tab' | 'change last';

/** What a foot pedal sends counts as a touch: arrow, page, space and enter keys. */
const PEDAL_KEYS = new Set([
  'ArrowUp',
  'ArrowDown',
  'ArrowLeft',
  'ArrowRight',
  'PageUp',
  'PageDown',
  ' ',
  'Enter',
]);

const LETTERS: Readonly<Record<string, DrillKeyAction>> = {
  Escape: 'end',
  p: 'pause',
  '-': 'slower',
  '+': 'faster',
  '=': 'faster',
  t: 'tab',
  Backspace: 'change last',
};

/**
 * What a key does in the drill. Space and Enter belong to a control that has the focus, if one has; the pedal's other
 * keys are a touch wherever the focus is.
 */
export function drillKey(key: string, focused: Element | null): DrillKeyAction | null {
  if (PEDAL_KEYS.has(key)) return focused && (key === ' ' || key === 'Enter') ? null : 'touch';
  return LETTERS[key.length === 1 ? key.toLowerCase() : key] ?? null;
}
