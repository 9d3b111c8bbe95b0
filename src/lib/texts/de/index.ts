import type { Catalogue } from '../spoken';
import { cautions } from './cautions';
import { climb } from './climb';
import { controls } from './controls';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { editTune } from './edit-tune';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { empty } from './empty';
import { explain } from './explain';
import { glossary } from './glossary';
import { keyboard } from './keyboard';
import { line } from './line';
import { measureBoard } from './measure-board';
import { passage } from './passage';
import { plan } from './plan';
import { privacy } from './privacy';
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
import { today } from './today';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tunesPage } from './tunes-page';
import { tuningPage } from './tuning-page';
import { why } from './why';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cautions,
  climb,
  controls,
  drillEnd,
  drillScreen,
  editTune,
  editor,
  editorPanels,
  empty,
  explain,
  glossary,
  keyboard,
  line,
  measureBoard,
  passage,
  plan,
  privacy,
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
  today,
  tuneForm,
  tunePage,
  tunePassage,
  tunesPage,
  tuningPage,
  why,
} satisfies Catalogue;
