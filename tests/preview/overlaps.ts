/** Texts of drawings that lie over each other or over a line that leads past them, as a browser lays them out. */
import type { Page } from 'playwright-core';

/** `KQ-OPS-B3 850 nm: "LC pair" over "0.75"`; empty where nothing meets. */
export function overlapsOn(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    interface Box {
      readonly what: string;
      readonly left: number;
      readonly right: number;
      readonly top: number;
      readonly bottom: number;
    }
    // Boxes of letters hold the room above and below them too; half of a pixel is a matter of rounding.
    const shrink = { x: 0.5, y: 2 };
    const boxOf = (what: string, { left, right, top, bottom }: DOMRect): Box => ({
      what,
      left: left + shrink.x,
      right: right - shrink.x,
      top: top + shrink.y,
      bottom: bottom - shrink.y,
    });
    const meet = (a: Box, b: Box): boolean =>
      a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
    const told: string[] = [];
    for (const section of document.querySelectorAll('.link-section')) {
      const head = section.querySelector('.drawing-head')?.textContent ?? '';
      for (const svg of section.querySelectorAll('svg.drawing')) {
        const frame = svg.getBoundingClientRect();
        const texts = [...svg.querySelectorAll('text')]
          .filter((text) => (text.textContent ?? '').trim() !== '')
          .map((text) => boxOf(text.textContent ?? '', text.getBoundingClientRect()));
        for (const [index, text] of texts.entries()) {
          if (
            text.left < frame.left - 1 ||
            text.right > frame.right + 1 ||
            text.top < frame.top - 1 ||
            text.bottom > frame.bottom + 1
          ) {
            told.push(`${head}: "${text.what}" outside`);
          }
          for (const other of texts.slice(index + 1)) {
            if (meet(text, other)) told.push(`${head}: "${text.what}" over "${other.what}"`);
          }
        }
        for (const line of svg.querySelectorAll('.leader')) {
          const { left, right, top, bottom, width } = line.getBoundingClientRect();
          // A slanting leader ties a sign to its true place, below the words.
          if (width >= 2) continue;
          const upright = { what: 'line', left: left - 0.5, right: right + 0.5, top, bottom };
          for (const text of texts) {
            if (meet(upright, text)) told.push(`${head}: a line through "${text.what}"`);
          }
        }
      }
    }
    return told;
  });
}

/** Texts of the pictures that a selector names which lie over each other or beyond their picture. */
export function textsThatMeet(page: Page, pictures: string): Promise<string[]> {
  return page.evaluate((selector) => {
    const told: string[] = [];
    for (const svg of document.querySelectorAll(selector)) {
      const frame = svg.getBoundingClientRect();
      const texts = [...svg.querySelectorAll('text')]
        .filter((text) => (text.textContent ?? '').trim() !== '')
        .map((text) => ({ what: text.textContent ?? '', box: text.getBoundingClientRect() }));
      for (const [index, { what, box }] of texts.entries()) {
        if (box.left < frame.left - 1 || box.right > frame.right + 1)
          told.push(`"${what}" outside`);
        for (const other of texts.slice(index + 1)) {
          const across = box.left + 0.5 < other.box.right && other.box.left + 0.5 < box.right;
          const down = box.top + 4 < other.box.bottom && other.box.top + 4 < box.bottom;
          if (across && down) told.push(`"${what}" over "${other.what}"`);
        }
      }
    }
    return told;
  }, pictures);
}
