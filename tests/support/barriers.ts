import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Every rule of WCAG 2.2 at levels A and AA that axe knows. */
const wcag22aa = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe finds on a page, or in one part of it, against WCAG 2.2 AA; one line a finding. */
export async function barriersOn(page: Page, part?: string): Promise<readonly string[]> {
  // Axe runs inside the page, which is quick but sees no frame of another origin; our pages have no frames at all.
  expect(page.frames()).toHaveLength(1);
  const isThere = await page.evaluate(() => 'axe' in window);
  const builder = new AxeBuilder({ page, ...(isThere ? { axeSource: 'void "it is there already"' } : {}) })
    .setLegacyMode()
    .options({ runOnly: { type: 'tag', values: wcag22aa }, resultTypes: ['violations'] });
  const { violations } = await (part === undefined ? builder : builder.include(part)).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary?.slice(0, 200) ?? ''}`),
  );
}
