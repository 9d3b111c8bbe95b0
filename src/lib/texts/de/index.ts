import type { Catalogue } from '../spoken';
import { climb } from './climb';
import { controls } from './controls';
import { empty } from './empty';
import { explain } from './explain';
import { line } from './line';
import { passage } from './passage';
import { plan } from './plan';
import { reason } from './reason';
import { rim } from './rim';
import { time } from './time';
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
  time,
  today,
  why,
} satisfies Catalogue;
