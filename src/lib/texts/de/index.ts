import type { Catalogue } from '../spoken';
import { cautions } from './cautions';
import { glossary } from './glossary';
import { keyboard } from './keyboard';
import { passage } from './passage';
import { privacy } from './privacy';
import { rim } from './rim';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cautions,
  glossary,
  keyboard,
  passage,
  privacy,
  rim,
  time,
} satisfies Catalogue;
