import type { Page } from 'playwright-core';

/** What is too low for a thumb: below 48 px, links inside text aside; one line a target. */
export function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const targets = document.querySelectorAll(
      'button, a.button, select, summary, label.check, input:not([type=radio], [type=checkbox])',
    );
    return [...targets].flatMap((target) => {
      const { height, width } = target.getBoundingClientRect();
      const hidden = height === 0 || width === 0 || target.closest('.visually-hidden, .skip-link');
      return hidden || height >= 48 ? [] : [`${Math.round(height)} px: ${target.outerHTML.slice(0, 120)}`];
    });
  });
}
