import { readFileSync } from 'node:fs';
import type axe from 'axe-core';
import type { Page } from 'playwright';

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
