import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe-core finds wrong with the page as it stands, one line a rule; empty when nothing. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    interface Violation {
      id: string;
      help: string;
      nodes: { html: string }[];
    }
    const { axe } = window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } };
    const { violations } = await axe.run();
    return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map((node) => node.html).join(' ')}`);
  });
}
