import type { Catalogue } from '../spoken';
import { cautions } from './cautions';
import { glossary } from './glossary';
import { keyboard } from './keyboard';
import { editTune } from './edit-tune';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { measureBoard } from './measure-board';
import { passage } from './passage';
import { privacy } from './privacy';
import { rim } from './rim';
import { settings } from './settings';
import { settingsBackup } from './settings-backup';
import { settingsClick } from './settings-click';
import { settingsDrill } from './settings-drill';
import { settingsStorage } from './settings-storage';
import { sameMeasures } from './same-measures';
import { time } from './time';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tunesPage } from './tunes-page';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cautions,
  glossary,
  keyboard,
  editTune,
  editor,
  editorPanels,
import { sheetPage } from './sheet-page';
import { soundChoices } from './sound-choices';
import { tabView } from './tab-view';
import { time } from './time';
import { tuningPage } from './tuning-page';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  drillEnd,
  drillScreen,
  measureBoard,
  passage,
  privacy,
  rim,
  settings,
  settingsBackup,
  settingsClick,
  settingsDrill,
  settingsStorage,
  sameMeasures,
  time,
  tuneForm,
  tunePage,
  tunePassage,
  tunesPage,
  sheetPage,
  soundChoices,
  tabView,
  time,
  tuningPage,
} satisfies Catalogue;
