/**
 * Sums that cannot be built for want of a figure: each says which, in words, the first
 * of several. Plans as text that lack one stand in sums.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { plannedArrangement } from '../../server/src/evaluate/arrangement.ts';
import { setFigures } from '../../server/src/evaluate/figures.ts';
import { flatten, type Piece } from '../../server/src/evaluate/path.ts';
import { readingSum, wholeSum } from '../../server/src/evaluate/sums.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import { betweenPairs, db, limitsSet, link, nm, place, stretch } from '../support/build.ts';
import { part, split } from './pieces.ts';

describe('a sum that cannot be built', () => {
  const set = setFigures(limitsSet('SET', 0.75, 3, { splice: [] }), nm(850), 'multimode');
  const because = (...pieces: readonly Piece[]) => {
    const sum = wholeSum(pieces, set, 'A>B', nm(850));
    return 'because' in sum ? sum.because : Number(sum.value) / 1e15;
  };

  it('says what it lacks, the first of several', () => {
    expect(because(split([]))).toBe('light is divided at FOURTH');
    expect(because(split([], 2))).toBe('SET has no figure for output 2 of FOURTH at 850 nm');
    expect(because(split([{ max: db(7) }], 2))).toBe(7);
    expect(because(part([]))).toBe('SET has no figure for part PAD');
    expect(because(part([{ wavelength: nm(1310), max: db(1) }]))).toBe(
      'SET has no figure for part PAD at 850 nm',
    );
    expect(because(part([], ['LC', 'SC']))).toBe(1.5);
    expect(because({ kind: 'splice', name: 'WELD', place: place() })).toBe(
      'SET has no figure for splice WELD',
    );
    const pieces = flatten(
      link([
        { ...stretch(1), length: undefined } as PathElement,
        { ...stretch(1), fibreName: 'X', fibre: undefined } as PathElement,
      ]),
    ).pieces;
    expect(because(...pieces)).toBe('a length of GLASS is missing');
    expect(because(...pieces.slice(1))).toBe('SET has no figure for fibre X at 850 nm');
    expect(
      because(
        ...flatten(link([{ ...stretch(0), fibreName: 'X', fibre: undefined } as PathElement]))
          .pieces,
      ),
    ).toBe(0);
  });

  it('of a reading names the ends', () => {
    const bare = setFigures(limitsSet('BARE', 0.75, 3, { connector: [] }), nm(850), 'multimode');
    const anonymous: PathElement = { kind: 'connector', name: 'PAIR', place: place() };
    const of = (elements: readonly PathElement[], method: 'one-cord' | 'two-cord' = 'one-cord') => {
      const sum = readingSum(
        flatten(link(elements)),
        plannedArrangement(method),
        bare,
        'counting',
        'A>B',
        nm(850),
      );
      return 'because' in sum ? sum.because : undefined;
    };
    expect(of([anonymous, stretch(1), anonymous])).toBe('BARE has no figure for end pair PAIR');
    const cord = { ...stretch(3), kind: 'cord' } as unknown as PathElement;
    expect(of([cord])).toBe('BARE has no figure for end pair');
    expect(of([])).toBe('nothing that loses light lies in it');
    const gone: PathElement = { kind: 'link', name: 'KQ-9', turned: false, place: place() };
    expect(of([gone, ...betweenPairs(1)])).toBe('KQ-9 is not known');
  });
});
