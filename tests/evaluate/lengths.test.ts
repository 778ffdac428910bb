/**
 * Measured lengths beside what is declared, whole: how far they may differ, how they
 * are converted (by the ratio of two indices) and which of them stands.
 */
import { describe, expect, it } from 'vitest';
import type { Evidence, FibreType, LengthCell, PathElement } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cleaned,
  fibre,
  mated,
  metres,
  nm,
  place,
  setup,
  stretch,
  when,
  worded,
} from '../support/build.ts';
import { judged } from './quiet-link.ts';

describe('a measured length', () => {
  const long = (length: number, more: Partial<LengthCell> = {}): LengthCell => ({
    object: 'KQ-1',
    fibre: 1,
    length: metres(length),
    from: 'reading',
    setup: 'ONE',
    at: when(500),
    place: place(),
    row: place(),
    ...more,
  });
  const word = (
    length: number,
    more: Parameters<typeof judged>[1] = {},
    also: Partial<Evidence> = {},
  ) => {
    const [one] = judged({ lengths: [long(length)], ...also }, more).lengths;
    return `${one?.verdict}: ${one?.because}`;
  };

  it('is held to what is declared, the helix of the fibre allowed', () => {
    expect(word(5000)).toBe('pass: 5 km, as long as the 5 km declared');
    expect(word(5050)).toBe(
      'pass: 5.05 km, 1.00 % over the 5 km declared: the fibre lies in its cable as a helix and is longer than the sheath',
    );
    expect(word(4900)).toBe('pass: 4.9 km, 2.00 % under the 5 km declared');
    expect(word(5150)).toContain('pass');
    expect(word(5150.000001)).toBe('not-judged: 5.15 km, 3.00 % over the 5 km declared');
    expect(word(4849)).toBe('not-judged: 4.849 km, 3.02 % under the 5 km declared');
    expect(word(115, { elements: betweenPairs(100) })).toContain('pass');
    expect(word(116, { elements: betweenPairs(100) })).toContain('not-judged');
    const unknown = [
      ...betweenPairs(5000),
      { ...stretch(0), deliberate: true } as PathElement,
      mated(),
    ];
    expect(word(5000, { elements: unknown })).toBe(
      'not-judged: the plan does not say how long it is',
    );
    expect(word(5000, {}, { work: cleaned(worded(600, 'ten')) })).toBe(
      'stale: cleaned on ten, after it was measured',
    );
  });

  it('that differs is told with the shorter of both', () => {
    const cells = [long(4000), long(6000, { fibre: 2 })];
    expect(judged({ lengths: cells }).doubts).toEqual([
      {
        name: 'length-differs',
        place: cells[0]?.place,
        details: { fibre: 1, length: 4000, declared: 5000, percent: -20, shorter: 4000 },
      },
      {
        name: 'length-differs',
        place: cells[1]?.place,
        details: { fibre: 2, length: 6000, declared: 5000, percent: 20, shorter: 5000 },
      },
    ]);
    expect(
      judged({ lengths: [long(4000)], work: cleaned(worded(600, 'ten')) }).doubts,
    ).toMatchObject([{ name: 'evidence-aged', details: { events: 0, faces: 0, lengths: 1 } }]);
  });

  it('that differs alike in all fibres is told once, those aside that work came after', () => {
    const cells = [long(5000), long(6000, { fibre: 2 }), long(6010, { fibre: 3 })];
    const told = (more: Partial<Evidence>) =>
      judged({ lengths: cells, ...more }, { fibres: 3 })
        .doubts.filter(({ name }) => name === 'length-differs')
        .map(({ details }) => [details.fibre, details.measured, details.fibres]);
    expect(told({})).toEqual([
      [2, undefined, undefined],
      [3, undefined, undefined],
    ]);
    const work = cleaned(worded(600, 'ten'), { fibres: [1] });
    expect(told({ work })).toEqual([[2, 2, '2..3']]);
  });

  it('is converted by the index that was set', () => {
    const glass: FibreType = { ...fibre, index: [{ wavelength: nm(1550), value: 1.468 }] } as never;
    const elements = [mated(), { ...stretch(8100), fibre: glass } as PathElement, mated()];
    const using = setup({ index: [{ wavelength: nm(1550), value: 1.46 }] as never });
    const cells = [long(8150, { wavelength: nm(1550) }), long(8150, { fibre: 2 })];
    expect(judged({ lengths: cells }, { elements, using }).doubts).toEqual([
      {
        name: 'index-converted',
        place: cells[0]?.place,
        details: {
          fibre: 1,
          lengths: 2,
          set: 1.46,
          glass: 1.468,
          shown: 8150,
          // 8150 · 1.46 ÷ 1.468.
          length: 8105.585831,
          wavelength: 1550,
        },
      },
    ]);
  });

  it('is not counted as converted where no index was set, or work came after', () => {
    const glass: FibreType = { ...fibre, index: [{ wavelength: nm(1550), value: 1.468 }] } as never;
    const elements = [mated(), { ...stretch(8100), fibre: glass } as PathElement, mated()];
    const using = setup({ index: [{ wavelength: nm(1550), value: 1.46 }] as never });
    const cells = [1, 2, 3].map((fibre) => long(8150, { wavelength: nm(1550), fibre }));
    const told = (more: Partial<Evidence>) =>
      judged({ lengths: cells, ...more }, { elements, using, fibres: 3 })
        .doubts.filter(({ name }) => name === 'index-converted')
        .map(({ details }) => [details.fibre, details.lengths]);
    expect(told({})).toEqual([[1, 3]]);
    const by = cells.map((cell) => (cell.fibre === 2 ? { ...cell, setup: 'OTHER' } : cell));
    expect(told({ lengths: by })).toEqual([[1, 2]]);
    const work = cleaned(worded(600, 'ten'), { fibres: [1] });
    expect(told({ work })).toEqual([[2, 2]]);
  });

  it('that stands is the last, in order of time', () => {
    const stands = (...cells: readonly LengthCell[]) =>
      judged({ lengths: cells }).lengths.map(({ length }) => length);
    expect(stands(long(5000, { at: when(400) }), long(5010))).toEqual([metres(5010)]);
    expect(stands(long(5010), long(5000, { at: when(400) }))).toEqual([metres(5010)]);
    expect(stands(long(5010), long(5000))).toEqual([metres(5000)]);
    expect(stands(long(5010, { fibre: 2 }), long(5000)).length).toBe(2);
  });
});
