import type { say } from '../drill-screen';
import { capital, plural } from '../figures';

export const drillScreen: typeof say = {
  title: 'Übung · Phrasewright',

  marks: {
    clean: 'sauber',
    stumbled: 'gestolpert',
    'broke down': 'abgebrochen',
    // "nicht markiert" is wider than a phone in the size of the large word
    unmarked: 'unmarkiert',
  },

  yourTurn: 'jetzt du',
  listen: 'hör zu',
  look: 'schau hin',
  ready: 'bereit',
  phases: { paused: 'Pause', 'count-in': 'Einzähler', done: 'fertig' },
  // "Durchgang 12" is wider than a phone in the size of the large word
  pass: (pass) => `Nr. ${pass}`,
  passes: (first, last) => `Nr. ${first}–${last}`,
  cleanOnes: (clean) => `${clean} sauber`,

  begin: 'Tipp hier, dann zählt es ein.',
  lookAt: {
    tab: 'Sieh dir die Tabulatur an. Tipp hier, dann zählt es ein.',
    melody: 'Sieh dir die Melodie an. Tipp hier, dann zählt es ein.',
  },
  paused: 'Alles Markierte ist sicher. Tipp hier: weiter mit Einzähler.',
  moved: (why) => `${capital(why)}.`,
  passHint: 'Nur tippen, wenn du abbrichst. Danach: einmal sauber, zweimal gestolpert.',
  handfulHint: 'Vier Durchgänge am Stück. Danach einmal tippen für jeden sauberen.',
  markHandful: 'Einmal tippen für jeden sauberen der vier.',
  nextHandful: (tempo) => `Die nächsten vier beginnen mit ${tempo}.`,
  leftIsClean: 'Nicht tippen: sauber. Zweimal: gestolpert. Dreimal: abgebrochen.',
  leftIsUnmarked: 'Einmal tippen: sauber. Zweimal: gestolpert. Dreimal: abgebrochen. Sonst: zählt nicht.',
  nextWaits: (tempo) => `Der nächste beginnt mit ${tempo}.`,
  nextComes: (pass, tempo) => `Ohne Tippen: Nr. ${pass} mit ${tempo}.`,
  touchAgain: (mark) => `Noch einmal tippen: ${mark}.`,
  heardAtGoal: (tempo) => `Im Zieltempo, mit ${tempo}.`,
  heardSlowly: (tempo) => `Langsam, mit ${tempo}.`,
  toBegin: 'Tipp hier, dann beginnt die Übung.',
  toGoOn: 'Tipp hier, dann geht die Übung weiter.',

  count: (passes, clean, fromMemory) =>
    `${passes} ${plural(passes, { one: 'Durchgang', other: 'Durchgänge' })} · ${clean} sauber · ${fromMemory} auswendig`,

  end: 'Ende',
  timeLeft: 'übrig',
  timeLeftAnd: 'übrig,',
  goOn: 'Weiter',
  pause: 'Pause',
  fromMemory: 'auswendig',
  inView: { tab: 'mit Tabulatur', melody: 'mit Melodie' },
  hearIt: 'Hören',
  stop: 'Stopp',
  sound: 'Klang',
  peek: 'zum Spicken halten',
  peekAt: { tab: 'Halten, um die Tabulatur zu sehen', melody: 'Halten, um die Melodie zu sehen' },
  slower: 'Einen Schlag pro Minute langsamer',
  faster: 'Einen Schlag pro Minute schneller',
  beginAt: 'beginnen mit',
  goOnAt: 'weiter mit',
  why: 'Warum dieses Tempo',
  tuneIsIn: 'Dieses Stück steht in',
  tuneUp: 'Stimmen',

  toward: (tempo) => `bis ${tempo}`,
  climb: (toward, passes, now) =>
    `Steigerung bis ${toward}: ${[...passes.map(({ tempo, mark }) => `${tempo} ${mark}`), `jetzt ${now}`].join(', ')}`,

  passesSoFar: 'Bisherige Durchgänge',
  noneYet: 'Noch keine.',
  changeMark: (pass, mark) => `Durchgang ${pass}, ${mark}: Markierung ändern`,

  nothingLost: 'Nichts ist verloren. Tipp unten, dann geht es weiter.',
  lastNotSaved: (why) => `Der letzte Durchgang ist nicht gesichert: ${why}`,
  marksWait: (count) =>
    `${count} ${plural(count, { one: 'Markierung wartet', other: 'Markierungen warten' })} so lange hier.`,
  goesOnWithout: 'Die Übung geht auch ohne weiter.',
  openElsewhere:
    'In einem anderen Tab oder Fenster läuft schon eine Übung. Beende sie dort und komm dann hierher zurück.',
  editedMeanwhile: 'Das Stück wurde inzwischen bearbeitet: Die Übung geht mit dem neuen Stand weiter.',
  backToToday: '‹ Heute',
  noPassage: 'Diese Passage gibt es in diesem Buch nicht.',
  noPassageWhy: 'Vielleicht wurde sie inzwischen bearbeitet. Wähl eine andere in der Übersicht des Stücks.',
  passageGone: 'Diese Passage gibt es im Stück nicht mehr.',
  passageGoneWhy:
    'Das Stück wurde inzwischen bearbeitet. Wähl eine andere in seiner Übersicht; die Durchgänge stehen noch im Protokoll.',

  youEnded: 'Du hast sie beendet.',
};
