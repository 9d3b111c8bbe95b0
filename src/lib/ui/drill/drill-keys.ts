export type DrillKeyAction =
  'touch' | 'end' | 'pause' | 'slower' | 'faster' | 'tab' | 'change last' | 'hear' | 'sound';

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
  h: 'hear',
  s: 'sound',
  Backspace: 'change last',
};

/** What has the focus: a control that Space and Enter work, or a field that needs arrows and letters for itself. */
export type FocusedThing = 'control' | 'field' | null;

/**
 * What a key does in the drill. Space and Enter belong to a control that has the focus, if one has; the pedal's other
 * keys are a touch wherever the focus is, but in a field, which keeps every key but Escape.
 */
export function drillKey(key: string, focused: FocusedThing): DrillKeyAction | null {
  if (focused === 'field' && key !== 'Escape') return null;
  if (PEDAL_KEYS.has(key)) return focused === 'control' && (key === ' ' || key === 'Enter') ? null : 'touch';
  return LETTERS[key.length === 1 ? key.toLowerCase() : key] ?? null;
}
