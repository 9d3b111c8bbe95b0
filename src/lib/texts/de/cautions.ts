import type { say } from '../cautions';

export const cautions: typeof say = {
  hands: 'Hände',
  handsStop:
    'Hör auf, wenn es wehtut, kribbelt oder taub wird. Geht es nicht weg, lass es ärztlich untersuchen.',
  handsWarmUp:
    'Spiel dich warm, bevor du ein Tempo steigerst, und meide plötzliche Sprünge: Leg pro Tag nur nach und nach Minuten dazu.',
  breaks: 'Pausen',
  breaksMean:
    'Lehrkräfte raten zu etwa fünf Minuten Pause in jeder halben Stunde oder zehn in der Stunde: ein Brauch, den noch niemand überprüft hat. Wollen deine Hände früher eine Pause, dann gib sie ihnen.',
  ears: 'Ohren',
  earsMean:
    'Stell den Klick nur so laut, dass du ihm folgen kannst, vor allem im Kopfhörer. Ein Telefon kann nicht messen, wie laut es an deinem Ohr ist. Wenn deine Ohren danach klingeln oder sich dumpf anfühlen, stell leiser und lass sie ausruhen; geht es nicht weg, lass sie ärztlich untersuchen.',
};
