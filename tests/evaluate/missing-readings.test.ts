/**
 * What is missing from a link, in words: readings by their numbers, ends of a tree, a
 * limit that cannot be built. Everything is counted by hand.
 */
import { describe, expect, it } from 'vitest';
import { numbersInWords } from '../../server/src/evaluate/doubts.ts';
import type { Way } from '../../server/src/model/types.ts';
import { betweenPairs, cell, limitsSet, place } from '../support/build.ts';
import { judged, told } from './short-link.ts';

it('numbers in words are sorted, each once, and drawn together', () => {
  expect(numbersInWords([3, 1, 2, 7, 1])).toBe('1..3, 7');
  expect(numbersInWords([2, 1])).toBe('1..2');
  expect(numbersInWords([5])).toBe('5');
  expect(numbersInWords([1, 3, 5])).toBe('1, 3, 5');
  expect(numbersInWords([])).toBe('');
  expect(numbersInWords([10, 9, 2])).toBe('2, 9..10');
});

describe('what is missing', () => {
  it('is listed by key, six of them in words', () => {
    const model = judged([cell(1, 1, 'A>B', 500)], { fibres: 8 });
    expect(told('readings-missing', [cell(1, 1, 'A>B', 500)], { fibres: 8 })).toMatchObject([
      {
        place: { block: 1 },
        details: {
          missing: 7,
          expected: 8,
          present: 1,
          fibre: 2,
          wavelength: 850,
          direction: 'A>B',
          fibres: '2..8',
          list: [2, 3, 4, 5, 6, 7].map((each) => `fibre ${each}, 850 nm A>B`).join('; '),
          more: 1,
        },
      },
    ]);
    expect(model.doubts[0]?.place).toBe(model.link.namePlace);
    expect(told('readings-missing', [], { fibres: 2 })[0]?.details).toMatchObject({
      missing: 2,
      present: 0,
      more: 0,
    });
    expect(told('readings-missing', [cell(1, 1, 'A>B', 500)])).toEqual([]);
  });

  it('of a tree is named by its ends', () => {
    const way = (name: string, end: number): Way =>
      ({
        kind: 'branch',
        name,
        fibre: end,
        path: betweenPairs(100),
        from: 'A',
        to: name,
        place: place(),
      }) as unknown as Way;
    const model = { ways: [way('HALL/01', 1), way('HALL/02', 2)] };
    expect(told('readings-missing', [], { fibres: 2, model })).toMatchObject([
      { details: { fibre: 1, end: 'HALL/01', list: 'HALL/01, 850 nm A>B; HALL/02, 850 nm A>B' } },
    ]);
  });

  it('is a limit that cannot be built', () => {
    const bare = limitsSet('BARE', 0.75, 3, { fibre: [] });
    expect(
      told('limit-missing', [], { terms: { limits: [bare] } }).map(({ details }) => details),
    ).toEqual([
      {
        wavelength: 850,
        limitName: 'BARE',
        because: 'BARE has no figure for fibre GLASS at 850 nm',
      },
    ]);
    expect(told('limit-missing', [], { terms: { limits: [], compare: [bare] } })).toEqual([]);
  });
});
