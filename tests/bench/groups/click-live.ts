import type { Page } from 'playwright';
import { withClickPage } from '../click-page';
import type { Disturbance, Heard } from '../click-page/main';
import type { Figure } from '../figure';

const SECONDS = 6;
const DISTURBANCES: readonly { name: string; disturbance: Disturbance }[] = [
  { name: 'blocked-50', disturbance: { blockedMs: 50, seconds: SECONDS } },
  { name: 'blocked-200', disturbance: { blockedMs: 200, seconds: SECONDS } },
  { name: 'blocked-500', disturbance: { blockedMs: 500, seconds: SECONDS } },
  { name: 'rows-100000', disturbance: { rows: 100_000 } },
];
const REFERENCES = [
  { player: 'transport', name: 'transport of tone', suffix: '' },
  { player: 'timer', name: 'a timer of the page', suffix: '-by-timer' },
];

const hear = (page: Page, player: string, disturbance: Disturbance): Promise<Heard> =>
  page.evaluate(([who, what]) => window.clickBench.live(who, what), [player, disturbance] as const);

/** Of a hundred that were due, those that were missed or moved. */
const share = ({ due, right }: Heard) => Math.round((10_000 * (due - right)) / due) / 100;

/** Ten clicks a second, recorded on the audio thread, while the page has other things to do. */
export async function* measure(): AsyncIterable<Figure> {
  for (const { name, disturbance } of DISTURBANCES) {
    const [engine, ...others] = await withClickPage(async (page) => {
      const heard: Heard[] = [];
      for (const player of ['engine', ...REFERENCES.map((reference) => reference.player)]) {
        heard.push(await hear(page, player, disturbance));
        console.error(name, player, JSON.stringify(heard.at(-1)));
      }
      return heard;
    });
    if (!engine) continue;
    for (const [index, reference] of REFERENCES.entries()) {
      const other = others[index];
      yield {
        figure: `click-live-${name}${reference.suffix}`,
        value: share(engine),
        unit: '% of clicks missed or moved by more than a sample',
        better: 'lower',
        target: 0,
        ...(other ? { reference: { name: reference.name, value: share(other) } } : {}),
      };
    }
  }
}
