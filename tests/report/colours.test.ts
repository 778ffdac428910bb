/** Text on the page reaches 4.5 to 1 and marks 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11) over every ground they stand on. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { contrast, mix } from '../../client/src/preview/page/contrast.ts';

type Colour = readonly [number, number, number];

/** Values of the editor's default themes, from memory. */
const themes = {
  dark: {
    paper: '#1f1f1f',
    ink: '#cccccc',
    fail: '#f14c4c',
    warning: '#cca700',
    info: '#3794ff',
    purple: '#b180d7',
    hover: '#2a2d2e',
  },
  light: {
    paper: '#ffffff',
    ink: '#3b3b3b',
    fail: '#e51400',
    warning: '#bf8803',
    info: '#0063d3',
    purple: '#652d90',
    hover: '#f2f2f2',
  },
} as const;

const sheet = readFileSync('server/src/report/page/styles.css', 'utf8');

/** A share as the sheet states it, so that the test follows the sheet and not a copy. */
function share(variable: string): number {
  const found = new RegExp(`${variable}: (\\d+)%`, 'u').exec(sheet)?.[1];
  if (!found) throw new Error(`the sheet has no ${variable}`);
  return Number(found) / 100;
}

function rgb(hex: string): Colour {
  const at = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16);
  return [at(1), at(3), at(5)];
}

describe.each(Object.entries(themes))('%s', (_, theme) => {
  const [paper, ink, fail, warning, info, purple] = [
    theme.paper,
    theme.ink,
    theme.fail,
    theme.warning,
    theme.info,
    theme.purple,
  ].map(rgb) as [Colour, Colour, Colour, Colour, Colour, Colour];
  const grounds = [paper, mix(fail, paper, 0.06), mix(ink, paper, 0.05), rgb(theme.hover)];
  const least = (colour: Colour) => Math.min(...grounds.map((ground) => contrast(colour, ground)));

  test.each([
    ['ink', ink],
    ['quiet', mix(ink, paper, share('--mix-quiet'))],
    ['fail', mix(fail, ink, share('--mix-fail'))],
    ['marginal', mix(warning, ink, share('--mix-marginal'))],
    ['conceded', mix(info, ink, share('--mix-conceded'))],
    ['invalid', mix(purple, ink, share('--mix-invalid'))],
  ] as const)('%s can be read', (name, colour) => {
    expect(least(colour), name).toBeGreaterThanOrEqual(4.5);
  });

  test.each([
    ['fail', fail],
    ['marginal', mix(warning, ink, 0.8)],
    ['conceded', info],
    ['invalid', purple],
  ] as const)('the mark of %s can be seen', (name, colour) => {
    expect(least(colour), name).toBeGreaterThanOrEqual(3);
  });
});

test('contrast is that of the standard: black on white is 21 to 1', () => {
  expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 10);
});
