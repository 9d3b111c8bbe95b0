import { listed } from './figures';
import { spoken } from './spoken';

interface OnDay {
  tempo: number;
  day: string;
}

/** The chart of a tune's settled tempo: in a sentence, by its captions, as tables. Tempos in whole beats a minute. */
export const say = spoken('tempoChart', {
  /** `first`: `null` when there is one day only; `links`: the next slowest; `ahead`: where the forecast ends. */
  picture: (
    first: OnDay | null,
    newest: OnDay,
    goal: number,
    links: readonly { name: string; tempo: number }[],
    ahead: { low: number; high: number; day: string } | null,
  ) => {
    const on = ({ tempo, day }: OnDay) => `${tempo} on ${day}`;
    const course = first ? `from ${on(first)} to ${on(newest)}` : on(newest);
    const others = links.map(({ name, tempo }) => `; ${name}, at ${tempo}`).join('');
    const end = ahead ? ` The forecast reaches between ${ahead.low} and ${ahead.high} by ${ahead.day}.` : '';
    return `Settled tempo, ${course}; goal ${goal}${others}.${end}`;
  },
  now: 'now',
  goal: (tempo: number) => `goal ${tempo}`,
  keyTune: 'the tune, its slowest link',
  keyLinks: (names: readonly string[]) => `${listed(names)}, next slowest`,
  keyForecast: 'forecast, 8 in 10',
  /** Over the chart when it is kept as a picture. */
  title: (tune: string, goal: number) => `${tune}: settled tempo, goal ${goal}`,
  keep: 'Keep it as a picture',
  noPicture: 'This browser makes no picture of it. The table below can be printed.',
  failed: 'The chart could not be loaded. Its figures are in the table below.',
  span: 'Span',
  weeks: (count: number) => `${count} weeks`,
  months: (count: number) => `${count} months`,
  allOfIt: 'all of it',
  touch: 'Touch a day for the passes behind it.',
  /** After a tempo. */
  orBetween: (low: number, high: number) => `, likely between ${low} and ${high}.`,
  behind: (link: string) => `The passes behind it: ${link}`,
  /** What is in the tables, for the ear. */
  tables: 'settled tempo by practice day',
  byDay: (tune: string, goal: number) => `${tune}: settled tempo by practice day, goal ${goal}`,
  linksByDay: 'The next slowest links: settled tempo by practice day',
  ahead: 'Forecast at the pace of the newest practice days; no promise of a date',
  day: 'Day',
  around: 'Around',
  tempo: 'Tempo',
  likelyBetween: 'Likely between',
  aheadBetween: '8 times in 10 between',
  lowAndHigh: (low: number, high: number) => `${low} and ${high}`,
  slowestLink: 'Slowest link',
});
