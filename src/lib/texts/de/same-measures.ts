import { listed } from '../figures';
import type { say } from '../same-measures';

export const sameMeasures: typeof say = {
  asOne: 'Als einer gelernt',
  mark: (mark) => `Zeichen ${mark}`,
  splitShort: 'trennen',
  splitHow: 'Nicht wirklich gleich? Wähle den, der für sich gelernt werden soll.',
  splitOff: (label) => `${label} ist nicht wirklich gleich`,
  split: (label, others) =>
    `${label} wird jetzt für sich gelernt und beginnt ohne Durchgänge. Die bisherigen bleiben bei ${listed(others)}.`,
  nearly: 'Fast gleich',
  join: 'Gleich: als einen Takt lernen',
  joined: (kept, other) =>
    `${kept} und ${other} werden jetzt als ein Takt gelernt. Sie zeigen die Durchgänge von ${kept}; was als ${other} gespielt wurde, bleibt aufgezeichnet.`,
  showMore: (count) => `${count} weitere zeigen`,
  none: 'Kein Takt ist einem anderen gleich oder fast gleich, soweit die Tabulatur es zeigt.',
};
