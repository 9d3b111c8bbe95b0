import type { Catalogue } from '../spoken';
import { add } from './add';
import { app } from './app';
import { backupFile } from './backup-file';
import { backupWork } from './backup-work';
import { book } from './book';
import { cautions } from './cautions';
import { cleanWeeks } from './clean-weeks';
import { climb } from './climb';
import { common } from './common';
import { controls } from './controls';
import { damage } from './damage';
import { drawnTab } from './drawn-tab';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { editTune } from './edit-tune';
import { editor } from './editor';
import { editorPanels } from './editor-panels';
import { empty } from './empty';
import { explain } from './explain';
import { glossary } from './glossary';
import { handOn } from './hand-on';
import { importWork } from './import-work';
import { keyboard } from './keyboard';
import { line } from './line';
import { linkChange } from './link-change';
import { measureBoard } from './measure-board';
import { measureHints } from './measure-hints';
import { minuteWeeks } from './minute-weeks';
import { nearSame } from './near-same';
import { passage } from './passage';
import { plan } from './plan';
import { privacy } from './privacy';
import { progress } from './progress';
import { progressSentence } from './progress-sentence';
import { reading } from './reading';
import { readingAbc } from './reading-abc';
import { readingMidi } from './reading-midi';
import { readingMusicxml } from './reading-musicxml';
import { reason } from './reason';
import { recordDamage } from './record-damage';
import { repertoireMonths } from './repertoire-months';
import { report } from './report';
import { retuning } from './retuning';
import { rim } from './rim';
import { sameMeasures } from './same-measures';
import { settings } from './settings';
import { settingsBackup } from './settings-backup';
import { settingsClick } from './settings-click';
import { settingsDrill } from './settings-drill';
import { settingsStorage } from './settings-storage';
import { share } from './share';
import { sheetPage } from './sheet-page';
import { sheetWords } from './sheet-words';
import { soundChoices } from './sound-choices';
import { soundDevice } from './sound-device';
import { spokenTab } from './spoken-tab';
import { tabMissing } from './tab-missing';
import { tabView } from './tab-view';
import { techniques } from './techniques';
import { tempoChart } from './tempo-chart';
import { time } from './time';
import { today } from './today';
import { tuneDraft } from './tune-draft';
import { tuneForm } from './tune-form';
import { tunePage } from './tune-page';
import { tunePassage } from './tune-passage';
import { tuneSummary } from './tune-summary';
import { tunesPage } from './tunes-page';
import { tuningPage } from './tuning-page';
import { typedTab } from './typed-tab';
import { why } from './why';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  add,
  app,
  backupFile,
  backupWork,
  book,
  cautions,
  cleanWeeks,
  climb,
  common,
  controls,
  damage,
  drawnTab,
  drillEnd,
  drillScreen,
  editTune,
  editor,
  editorPanels,
  empty,
  explain,
  glossary,
  handOn,
  importWork,
  keyboard,
  line,
  linkChange,
  measureBoard,
  measureHints,
  minuteWeeks,
  nearSame,
  passage,
  plan,
  privacy,
  progress,
  progressSentence,
  reading,
  readingAbc,
  readingMidi,
  readingMusicxml,
  reason,
  recordDamage,
  repertoireMonths,
  report,
  retuning,
  rim,
  sameMeasures,
  settings,
  settingsBackup,
  settingsClick,
  settingsDrill,
  settingsStorage,
  share,
  sheetPage,
  sheetWords,
  soundChoices,
  soundDevice,
  spokenTab,
  tabMissing,
  tabView,
  techniques,
  tempoChart,
  time,
  today,
  tuneDraft,
  tuneForm,
  tunePage,
  tunePassage,
  tuneSummary,
  tunesPage,
  tuningPage,
  typedTab,
  why,
} satisfies Catalogue;
