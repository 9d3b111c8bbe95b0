import type { Catalogue } from '../spoken';
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

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
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
} satisfies Catalogue;
