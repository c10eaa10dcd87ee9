// What can be seen to be wrong with a page without knowing it: faults of accessibility, text that
// is cut or hangs over the side, and names that two things share.

import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** 1280 x 800 at 200 %, the least width of a page that reflows, a tablet, a phone. */
const SIZES = [
  { width: 640, height: 400 }, { width: 320, height: 568 }, { width: 820, height: 1180 },
  { width: 390, height: 844 },
] as const;
/** A page writes itself anew for another shape, ms. */
const ANEW_MS = 300;

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** `within`: only what a selector finds, which takes a fraction of the time. */
export async function axeFaults(page: Page, within?: string): Promise<string[]> {
  const builder = new AxeBuilder({ page }).withTags(TAGS);
  const { violations } = await (within === undefined ? builder : builder.include(within)).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
}

/** Text that its own box cuts off, and text or controls beyond the sides of the page. */
export function cutText(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const faults: string[] = [];
    const wide = document.documentElement.clientWidth;
    const own = (one: Element) =>
      [...one.childNodes].some(({ nodeType, textContent }) =>
        nodeType === Node.TEXT_NODE && textContent?.trim() !== '');
    for (const one of document.querySelectorAll('body *')) {
      if (!(one instanceof HTMLElement) || !own(one) || !one.checkVisibility()) continue;
      if (one.closest('.unseen, .tag, .skip, details:not([open]) > :not(summary)')) continue;
      const style = getComputedStyle(one);
      if (style.position === 'absolute' && style.clipPath !== 'none') continue;
      const range = document.createRange();
      range.selectNodeContents(one);
      const said = `"${one.textContent?.trim().slice(0, 40)}"`;
      for (const { left, right } of range.getClientRects()) {
        if (left < -1 || right > wide + 1) faults.push(`${said} hangs over the side`);
      }
      for (let box: HTMLElement | null = one; box !== null; box = box.parentElement) {
        if (!/hidden|clip/.test(getComputedStyle(box).overflowX)) continue;
        const { left, right } = box.getBoundingClientRect();
        const text = range.getBoundingClientRect();
        if (text.left < left - 1 || text.right > right + 1) faults.push(`${said} is cut`);
      }
    }
    return [...new Set(faults)];
  });
}

/** The focused control, if it lies under what stays at the top or the foot of the window. */
export function coveredFocus(page: Page): Promise<(string | null)[]> {
  return page.evaluate(() => {
    const one = document.activeElement!;
    const { x, y, width, height } = one.getBoundingClientRect();
    const seen = document.elementFromPoint(x + width / 2, y + height / 2);
    return one.contains(seen) ? [] : [one.getAttribute('aria-label')];
  });
}

/** Names that two buttons, links or switches of one region share. */
export async function sharedNames(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const region of ['.stage', '#controls', '.head', '.jobs', '.front', '.debrief']) {
    const names = await page.locator(region).locator('button:visible, a:visible')
      .evaluateAll((all) => all.map((one) =>
        one.getAttribute('aria-label') ?? one.textContent?.trim() ?? ''));
    for (const name of names) {
      if (name === '') found.push(`${region}: a control without a name`);
      if (names.filter((other) => other === name).length > 1) found.push(`${region}: ${name}`);
    }
  }
  return [...new Set(found)];
}

/** No text is cut and no name is shared, with a mouse at every size. */
export async function looksRight(page: Page, isMobile: boolean): Promise<void> {
  expect(await sharedNames(page)).toEqual([]);
  expect(await cutText(page)).toEqual([]);
  if (isMobile) return;
  const before = page.viewportSize();
  for (const size of SIZES) {
    await page.setViewportSize(size);
    await page.waitForTimeout(ANEW_MS);
    const at = { message: `${size.width} x ${size.height}`, timeout: 3000 };
    await expect.poll(() => cutText(page), at).toEqual([]);
  }
  if (before !== null) await page.setViewportSize(before);
}
