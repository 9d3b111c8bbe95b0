import type { Catalogue } from '../spoken';
import { add } from './add';
import { cautions } from './cautions';
import { climb } from './climb';
import { controls } from './controls';
import { drawnTab } from './drawn-tab';
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
import { measureHints } from './measure-hints';
import { nearSame } from './near-same';
import { passage } from './passage';
import { plan } from './plan';
import { privacy } from './privacy';
import { reading } from './reading';
import { readingAbc } from './reading-abc';
import { readingMidi } from './reading-midi';
import { readingMusicxml } from './reading-musicxml';
import { reason } from './reason';
import { retuning } from './retuning';
import { rim } from './rim';
import { sameMeasures } from './same-measures';
import { settings } from './settings';
import { settingsBackup } from './settings-backup';
import { settingsClick } from './settings-click';
import { settingsDrill } from './settings-drill';
import { settingsStorage } from './settings-storage';
import { sheetPage } from './sheet-page';
import { sheetWords } from './sheet-words';
import { soundChoices } from './sound-choices';
import { spokenTab } from './spoken-tab';
import { tabMissing } from './tab-missing';
import { tabView } from './tab-view';
import { techniques } from './techniques';
import { app } from './app';
import { backupFile } from './backup-file';
import { backupWork } from './backup-work';
import { book } from './book';
import { damage } from './damage';
import { handOn } from './hand-on';
import { importWork } from './import-work';
import { passage } from './passage';
import { recordDamage } from './record-damage';
import { rim } from './rim';
import { share } from './share';
import { soundDevice } from './sound-device';
import { time } from './time';
import { today } from './today';
import { tuneDraft } from './tune-draft';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tunesPage } from './tunes-page';
import { tuningPage } from './tuning-page';
import { typedTab } from './typed-tab';
import { why } from './why';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  add,
  cautions,
  climb,
  controls,
  drawnTab,
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
  measureHints,
  nearSame,
  passage,
  plan,
  privacy,
  reading,
  readingAbc,
  readingMidi,
  readingMusicxml,
  reason,
  retuning,
  rim,
  sameMeasures,
  settings,
  settingsBackup,
  settingsClick,
  settingsDrill,
  settingsStorage,
  sheetPage,
  sheetWords,
  soundChoices,
  spokenTab,
  tabMissing,
  tabView,
  techniques,
  app,
  backupFile,
  backupWork,
  book,
  damage,
  handOn,
  importWork,
  passage,
  recordDamage,
  rim,
  share,
  soundDevice,
  time,
  today,
  tuneDraft,
  tuneForm,
  tunePage,
  tunePassage,
  tunesPage,
  tuningPage,
  typedTab,
  why,
} satisfies Catalogue;
