import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** Serious and critical findings of axe-core on the page as it stands, one line each; empty when there are none. */
export async function seriousFindings(page: Page): Promise<string[]> {
  await page.evaluate(source);
  const violations = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(root: unknown, options: object): Promise<{ violations: unknown }> };
    };
    const { document } = globalThis as unknown as { document: unknown };
    // What is in order is not described element by element, which takes longer than the looking.
    return (await axe.run(document, { resultTypes: ['violations'] })).violations;
  });
  return (violations as Violation[])
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`);
}
