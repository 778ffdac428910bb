/**
 * The sheet's colours over the four default themes: each share is read from the
 * sheet itself, the contrast worked out anew (WCAG 2.2: 1.4.3 for text, 1.4.11
 * for marks), and compared with the table that the design was made by.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  type Colour,
  contrast,
  groundsOf,
  leastContrast,
  mix,
  neededShare,
  tokens,
} from '../../client/src/preview/page/contrast.ts';
import { type ThemeName, themes } from '../preview/themes.ts';

const sheet = readFileSync('server/src/report/page/colours.css', 'utf8');
const normal = /:root \{([^}]+)\}/u.exec(sheet)?.[1] ?? '';
const high = /\.vscode-high-contrast-light \{([^}]+)\}/u.exec(sheet)?.[1] ?? '';

/** A share as the sheet states it, so that the test follows the sheet and not a copy. */
function shareIn(theme: ThemeName, share: string): number {
  const find = (text: string) => new RegExp(`${share}: (\\d+)%`, 'u').exec(text)?.[1];
  const found = (theme.startsWith('high') ? find(high) : undefined) ?? find(normal);
  if (found === undefined) throw new Error(`the sheet has no ${share}`);
  return Number(found);
}

function rgb(hex: string): Colour {
  const at = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16);
  return [at(1), at(3), at(5)];
}

const hues = { fail: 'fail', marginal: 'warning', conceded: 'info', invalid: 'purple' } as const;

function coloursOf(name: ThemeName) {
  const theme = themes[name];
  const [paper, ink, fail, hover] = [theme.paper, theme.ink, theme.fail, theme.hover].map(rgb) as [
    Colour,
    Colour,
    Colour,
    Colour,
  ];
  const grounds = groundsOf(
    { paper, ink, fail, hover },
    shareIn(name, '--share-over'),
    shareIn(name, '--share-fill'),
  );
  const overPaper = (share: string) => mix(ink, paper, shareIn(name, share) / 100);
  const hue = (tone: keyof typeof hues, suffix: '' | '-text') =>
    mix(rgb(theme[hues[tone]]), ink, shareIn(name, `--share-${tone}${suffix}`) / 100);
  return { theme, paper, ink, grounds, overPaper, hue };
}

const names = Object.keys(themes) as ThemeName[];

/** Least contrast over paper, the ground over the limit, an opened link and the pointer's row: dark, light, high contrast dark and light. */
const designed: Readonly<Record<string, readonly [number, number, number, number]>> = {
  ink: [8.6, 10.0, 21, 14.5],
  quiet: [5.2, 4.6, 21, 14.5],
  ghost: [4.2, 3.4, 11.4, 6.4],
  fail: [3.9, 4.2, 8.5, 6.6],
  marginal: [6.4, 3.5, 14.8, 6.2],
  conceded: [5.3, 5.0, 8.1, 5.6],
  invalid: [4.6, 8.0, 6.9, 9.0],
  'fail as text': [4.6, 6.0, 8.5, 6.6],
  'marginal as text': [6.9, 4.8, 14.8, 6.2],
  'conceded as text': [5.7, 5.7, 8.1, 5.6],
  'invalid as text': [5.0, 8.4, 6.9, 9.0],
};

describe.each(names)('%s', (name) => {
  const { ink, grounds, overPaper, hue } = coloursOf(name);
  const colours: Readonly<Record<string, Colour>> = {
    ink,
    quiet: overPaper('--share-quiet'),
    ghost: overPaper('--share-ghost'),
    fail: hue('fail', ''),
    marginal: hue('marginal', ''),
    conceded: hue('conceded', ''),
    invalid: hue('invalid', ''),
    'fail as text': hue('fail', '-text'),
    'marginal as text': hue('marginal', '-text'),
    'conceded as text': hue('conceded', '-text'),
    'invalid as text': hue('invalid', '-text'),
  };

  test.each(Object.entries(designed))(
    '%s has the contrast it was designed with',
    (token, table) => {
      const expected = table[names.indexOf(name)]!;
      expect(Math.abs(leastContrast(colours[token]!, grounds) - expected)).toBeLessThan(0.06);
    },
  );

  test.each(tokens.map((token) => [token.share, token] as const))(
    '%s needs no other share',
    (share, token) => {
      const hueName = /^--theme-(\w+)$/u.exec(token.of)?.[1] as keyof typeof hues | undefined;
      const of = hueName ? rgb(themes[name][hues[hueName]]) : ink;
      const base = token.base === '--ink' ? ink : rgb(themes[name].paper);
      const before = shareIn(name, share);
      expect(neededShare(token, { of, base }, before, grounds)).toBe(before);
    },
  );
});

test('a pale theme gets more ink until text can be read', () => {
  const grounds: readonly Colour[] = [[255, 255, 255]];
  const token = tokens.find(({ share }) => share === '--share-fail-text')!;
  const pale = { of: [255, 190, 180] as Colour, base: [60, 60, 60] as Colour };
  const share = neededShare(token, pale, 70, grounds);
  expect(share).toBeLessThan(70);
  expect(leastContrast(mix(pale.of, pale.base, share / 100), grounds)).toBeGreaterThanOrEqual(4.5);
  expect(leastContrast(mix(pale.of, pale.base, (share + 10) / 100), grounds)).toBeLessThan(4.5);
});

test('contrast is that of the standard: black on white is 21 to 1', () => {
  expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 10);
});
