import type { say } from '../report';

export const report: typeof say = {
  title: 'Für die Lehrkraft · Phrasewright',
  back: '‹ Fortschritt',
  about:
    'Eine Seite für die Lehrkraft, auf Papier oder als PDF. Von allein geht sie nirgendwohin, und deine Notizen stehen nicht darauf.',
  yourName: 'Dein Name, wenn er dastehen soll',
  weeks: 'Wochen',
  weeksLong: (count) => `${count} Wochen`,
  print: 'Drucken',
  orSave: ['oder als PDF', 'speichern'],
  reading: 'Was du gespielt hast, wird gelesen.',
  practice: 'Geübt',
  practiceOf: (name) => `Geübt: ${name}`,
  sum: (from, to, minutes, passes) =>
    `${from} bis ${to}: ${minutes} ${minutes === 1 ? 'Minute' : 'Minuten'}, ${passes} ${passes === 1 ? 'Durchgang' : 'Durchgänge'}.`,
  tunes: 'Stücke',
  noTune: 'In diesen Wochen wurde kein Stück gespielt.',
  tempos: 'Tempo in Schlägen pro Minute, von der langsamsten Stelle: das Tempo, in dem sie sauber gelingt.',
  atFirst: 'Damals',
  now: 'Jetzt',
  goal: 'Ziel',
  minutes: 'Minuten',
  passes: 'Durchgänge',
  clean: 'Sauber',
  from: 'Ab',
  tune: (tuning, state, slowest) =>
    `${tuning} · ${state}${slowest === null ? '' : ` · langsamste Stelle: ${slowest}`}`,
  percent: (share) => `${share} %`,
};
