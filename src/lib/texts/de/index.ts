import type { Catalogue } from '../spoken';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { measureBoard } from './measure-board';
import { passage } from './passage';
import { rim } from './rim';
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
  rim,
  sheetPage,
  soundChoices,
  tabView,
  time,
  tuningPage,
} satisfies Catalogue;
