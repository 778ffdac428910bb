/** What `npm run prove -- changes drawn` draws, and how far its score reaches. */
import { expect, test } from 'vitest';
import { isDrawn, scoreInterval } from './drawn.ts';

const change = (line: number, fileName = '/somewhere/server/src/evaluate/decide.ts') => ({
  id: String(line),
  fileName,
  location: { start: { line, column: 2 }, end: { line, column: 9 } },
  mutatorName: 'ConditionalExpression',
  replacement: 'true',
});
const drawn = (seed: string, share: number) =>
  Array.from({ length: 4000 }, (_, line) => line).filter((line) =>
    isDrawn(change(line), seed, share),
  );

test('a seed draws its share, the same again, and another seed others', () => {
  const one = drawn('2711', 0.1);
  expect(one.length).toBeGreaterThan(330);
  expect(one.length).toBeLessThan(470);
  expect(drawn('2711', 0.1)).toEqual(one);
  expect(drawn('2712', 0.1)).not.toEqual(one);
  // A greater share holds the smaller one.
  const more = drawn('2711', 0.2);
  expect(one.filter((line) => !more.includes(line))).toEqual([]);
});

test('where the sources stand has no part in it', () => {
  const windows = 'D:\\copy\\server\\src\\evaluate\\decide.ts';
  for (let line = 0; line < 200; line += 1) {
    expect(isDrawn(change(line, windows), '1', 0.5)).toBe(isDrawn(change(line), '1', 0.5));
  }
});

test('the interval of a score is that of published examples', () => {
  // R. G. Newcombe, Statistics in Medicine 17 (1998), table I, method 3; from memory.
  const rounded = (noticed: number, of: number) =>
    scoreInterval(noticed, of).map((bound) => Math.round(bound * 1e4) / 1e4);
  expect(rounded(81, 263)).toEqual([0.2553, 0.3662]);
  expect(rounded(15, 148)).toEqual([0.0624, 0.1605]);
  expect(rounded(0, 20)).toEqual([0, 0.1611]);
  expect(rounded(1, 29)).toEqual([0.0061, 0.1718]);
});
