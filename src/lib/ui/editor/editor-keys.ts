import type { Technique, Weight } from '$lib/core/tune/strike';
import { say } from '$lib/texts/editor-panels';

/** What a key does while the grid has the focus. */
export type EditorKey =
  | { kind: 'move'; places: number; strings: number }
  | { kind: 'digit'; digit: number }
  | { kind: 'technique'; technique: Technique }
  | { kind: 'weight'; weight: Weight }
  | { kind: 'take-off' }
  | { kind: 'rest' }
  | { kind: 'fill' };

const MOVES: Record<string, readonly [places: number, strings: number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  Home: [-1000, 0],
  End: [1000, 0],
};

/** The letters of the tab for what has one there (common practice); `t` is the thumb on the short string. */
const LETTERS: Record<string, EditorKey> = {
  d: { kind: 'technique', technique: 'drop-thumb' },
  h: { kind: 'technique', technique: 'hammer-on' },
  p: { kind: 'technique', technique: 'pull-off' },
  s: { kind: 'technique', technique: 'slide' },
  n: { kind: 'technique', technique: 'strike' },
  b: { kind: 'technique', technique: 'brush' },
  t: { kind: 'technique', technique: 'drone' },
  i: { kind: 'technique', technique: 'tie' },
  g: { kind: 'weight', weight: 'ghost' },
  a: { kind: 'weight', weight: 'accent' },
  r: { kind: 'rest' },
  f: { kind: 'fill' },
};

/** As the list of keys shows them. */
export function keysListed(): [key: string, does: string][] {
  const { keyNames: names, keysDo: does } = say;
  return [
    ['← →', does.places],
    ['↑ ↓', does.strings],
    [names.frets, does.frets],
    ['n b t', does.right],
    ['d h p s', does.left],
    ['i', does.tie],
    ['g a', does.weights],
    [names.takeOff, does.takeOff],
    ['r', does.rest],
    ['f', does.fill],
    [names.undo, does.undo],
    [names.redo, does.redo],
    [names.save, does.save],
  ];
}

export interface KeyPress {
  key: string;
  ctrlKey: boolean;
  metaKey: boolean;
  altKey: boolean;
}

/** What a key does wherever the focus is; `null` for nothing. */
export function pageKey(press: KeyPress & { shiftKey: boolean }): 'undo' | 'redo' | 'save' | null {
  if (!(press.ctrlKey || press.metaKey) || press.altKey) return null;
  const key = press.key.toLowerCase();
  if (key === 's') return press.shiftKey ? null : 'save';
  if (key === 'y') return 'redo';
  return key === 'z' ? (press.shiftKey ? 'redo' : 'undo') : null;
}

/** While the grid has the focus. `null` for a key that is the page's or the browser's. */
export function editorKey({ key, ctrlKey, metaKey, altKey }: KeyPress): EditorKey | null {
  if (ctrlKey || metaKey || altKey) return null;
  const move = MOVES[key];
  if (move) return { kind: 'move', places: move[0], strings: move[1] };
  if (/^\d$/.test(key)) return { kind: 'digit', digit: Number(key) };
  if (key === 'Delete' || key === 'Backspace') return { kind: 'take-off' };
  return LETTERS[key.toLowerCase()] ?? null;
}
