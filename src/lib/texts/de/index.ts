import type { Catalogue } from '../spoken';
import { cautions } from './cautions';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { editTune } from './edit-tune';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { glossary } from './glossary';
import { keyboard } from './keyboard';
import { measureBoard } from './measure-board';
import { passage } from './passage';
import { privacy } from './privacy';
import { climb } from './climb';
import { controls } from './controls';
import { empty } from './empty';
import { explain } from './explain';
import { line } from './line';
import { passage } from './passage';
import { plan } from './plan';
import { reason } from './reason';
import { rim } from './rim';
import { sameMeasures } from './same-measures';
import { settings } from './settings';
import { settingsBackup } from './settings-backup';
import { settingsClick } from './settings-click';
import { settingsDrill } from './settings-drill';
import { settingsStorage } from './settings-storage';
import { sheetPage } from './sheet-page';
import { soundChoices } from './sound-choices';
import { tabView } from './tab-view';
import { time } from './time';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tunesPage } from './tunes-page';
import { tuningPage } from './tuning-page';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cautions,
  drillEnd,
  drillScreen,
  editTune,
  editor,
  editorPanels,
  glossary,
  keyboard,
  measureBoard,
  passage,
  privacy,
import { today } from './today';
import { why } from './why';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  climb,
  controls,
  empty,
  explain,
  line,
  passage,
  plan,
  reason,
  rim,
  sameMeasures,
  settings,
  settingsBackup,
  settingsClick,
  settingsDrill,
  settingsStorage,
  sheetPage,
  soundChoices,
  tabView,
  time,
  tuneForm,
  tunePage,
  tunePassage,
  tunesPage,
  tuningPage,
  today,
  why,
} satisfies Catalogue;
