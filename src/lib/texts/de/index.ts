import type { Catalogue } from '../spoken';
import { minuteWeeks } from './minute-weeks';
import { passage } from './passage';
import { repertoireMonths } from './repertoire-months';
import { rim } from './rim';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  minuteWeeks,
  passage,
  repertoireMonths,
  rim,
  time,
} satisfies Catalogue;
