import { readFileSync } from 'node:fs';
import type axe from 'axe-core';
import type { Page } from 'playwright';
import { DESKTOP, PHONE } from './harness';

/** axe-core: the reference library for WCAG 2.2 checks by machine. Put in by the debugger, past the app's own policy. */
const AXE = readFileSync('node_modules/axe-core/axe.min.js', 'utf8');
const RULES = {
  all: { rules: { 'target-size': { enabled: true } } },
  colours: { runOnly: { type: 'tag', values: ['cat.color'] } },
} satisfies Record<string, axe.RunOptions>;

/** What it finds on a page as it stands, each as words; its target-size rule asks too. */
export async function violations(page: Page, rules: keyof typeof RULES = 'all'): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations: found } = await page.evaluate(
    (options) => (globalThis as unknown as { axe: typeof axe }).axe.run(document, options),
    { ...RULES[rules], resultTypes: ['violations' as const] },
  );
  return found.map(({ id, nodes }) => {
    const [first] = nodes;
    return `${id} in ${String(nodes.length)}, first ${first?.html.slice(0, 200) ?? ''}\n${first?.failureSummary ?? ''}`;
  });
}

/** Pixels that the screen can be scrolled sideways, at each width that it may have. */
export async function sideways(page: Page, widths = [320, PHONE.width, DESKTOP.width]): Promise<string[]> {
  const found: string[] = [];
  for (const width of widths) {
    await page.setViewportSize({
      width,
      height: width === DESKTOP.width ? DESKTOP.height : PHONE.height,
    });
    const read = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    let over = await read();
    // a chart follows the width of its box a moment later
    for (let time = 0; over > 0 && time < 20; time++) {
      await page.waitForTimeout(50);
      over = await read();
    }
    if (over > 0) found.push(`${String(over)} px at ${String(width)}`);
  }
  return found;
}
