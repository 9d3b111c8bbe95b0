import type { Catalogue } from '../spoken';
import { cleanWeeks } from './clean-weeks';
import { linkChange } from './link-change';
import { minuteWeeks } from './minute-weeks';
import { passage } from './passage';
import { progress } from './progress';
import { progressSentence } from './progress-sentence';
import { repertoireMonths } from './repertoire-months';
import { report } from './report';
import { rim } from './rim';
import { tempoChart } from './tempo-chart';
import { time } from './time';
import { tuneSummary } from './tune-summary';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cleanWeeks,
  linkChange,
  minuteWeeks,
  passage,
  progress,
  progressSentence,
  repertoireMonths,
  report,
  rim,
  tempoChart,
  time,
  tuneSummary,
} satisfies Catalogue;
