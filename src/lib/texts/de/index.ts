import type { Catalogue } from '../spoken';
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
