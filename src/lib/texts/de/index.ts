import type { Catalogue } from '../spoken';
import { cautions } from './cautions';
import { glossary } from './glossary';
import { keyboard } from './keyboard';
import { passage } from './passage';
import { privacy } from './privacy';
import { rim } from './rim';
import { settings } from './settings';
import { settingsBackup } from './settings-backup';
import { settingsClick } from './settings-click';
import { settingsDrill } from './settings-drill';
import { settingsStorage } from './settings-storage';
import { time } from './time';

/** Every area in German, by the name that its English file gives to `spoken`. */
export const de = {
  cautions,
  glossary,
  keyboard,
  passage,
  privacy,
  rim,
  settings,
  'settings-backup': settingsBackup,
  'settings-click': settingsClick,
  'settings-drill': settingsDrill,
  'settings-storage': settingsStorage,
  time,
} satisfies Catalogue;
