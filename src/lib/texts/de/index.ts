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
import { add } from './add';
import { drawnTab } from './drawn-tab';
import { measureHints } from './measure-hints';
import { nearSame } from './near-same';
import { passage } from './passage';
import { reading } from './reading';
import { readingAbc } from './reading-abc';
import { readingMidi } from './reading-midi';
import { readingMusicxml } from './reading-musicxml';
import { retuning } from './retuning';
import { rim } from './rim';
import { sheetWords } from './sheet-words';
import { spokenTab } from './spoken-tab';
import { tabMissing } from './tab-missing';
import { techniques } from './techniques';
import { time } from './time';
import { tuneDraft } from './tune-draft';
import { typedTab } from './typed-tab';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  add,
  'drawn-tab': drawnTab,
  'measure-hints': measureHints,
  'near-same': nearSame,
  passage,
  reading,
  'reading-abc': readingAbc,
  'reading-midi': readingMidi,
  'reading-musicxml': readingMusicxml,
  retuning,
  rim,
  'sheet-words': sheetWords,
  'spoken-tab': spokenTab,
  'tab-missing': tabMissing,
  techniques,
  time,
  'tune-draft': tuneDraft,
  'typed-tab': typedTab,
} satisfies Catalogue;
