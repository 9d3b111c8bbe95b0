import type { Catalogue } from '../spoken';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { passage } from './passage';
import { rim } from './rim';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  editor,
  editorPanels,
  passage,
  rim,
  time,
} satisfies Catalogue;
