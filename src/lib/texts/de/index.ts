import type { Catalogue } from '../spoken';
import { backupFile } from './backup-file';
import { backupWork } from './backup-work';
import { book } from './book';
import { damage } from './damage';
import { handOn } from './hand-on';
import { passage } from './passage';
import { recordDamage } from './record-damage';
import { rim } from './rim';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  backupFile,
  backupWork,
  book,
  damage,
  handOn,
  passage,
  recordDamage,
  rim,
  time,
} satisfies Catalogue;
