import type { Catalogue } from '../spoken';
import { drillEnd } from './drill-end';
import { drillScreen } from './drill-screen';
import { passage } from './passage';
import { rim } from './rim';
import { soundChoices } from './sound-choices';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  drillEnd,
  drillScreen,
  passage,
  rim,
  soundChoices,
  time,
} satisfies Catalogue;
