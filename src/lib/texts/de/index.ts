import type { Catalogue } from '../spoken';
import { editTune } from './edit-tune';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { passage } from './passage';
import { rim } from './rim';
import { sameMeasures } from './same-measures';
import { time } from './time';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tunesPage } from './tunes-page';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  editTune,
  editor,
  editorPanels,
  passage,
  rim,
  sameMeasures,
  time,
  tuneForm,
  tunePage,
  tunePassage,
  tunesPage,
} satisfies Catalogue;
