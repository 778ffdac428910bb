/** Where two lists of texts differ. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stretchesBetween } from '../../server/src/compare/stretches.ts';

const between = (before: string, after: string) =>
  stretchesBetween([...before], [...after]).map(
    ({ from, to, start, end }) => `${before.slice(from, to)}>${after.slice(start, end)}`,
  );

describe('stretches between two lists', () => {
  it('are none where nothing differs', () => {
    expect(between('abc', 'abc')).toEqual([]);
    expect(between('', '')).toEqual([]);
  });

  it('leave out what lies between two of them', () => {
    expect(between('abcdefg', 'aXcdeYg')).toEqual(['b>X', 'f>Y']);
    expect(between('abcdef', 'bcdXef')).toEqual(['a>', '>X']);
    expect(between('abcd', 'abXYcd')).toEqual(['>XY']);
    expect(between('abcd', '')).toEqual(['abcd>']);
  });

  it('keep the longest row of what changed places', () => {
    expect(between('abcdef', 'fabcde')).toEqual(['>f', 'f>']);
    expect(between('abcdef', 'abdefc')).toEqual(['c>', '>c']);
  });

  it('hold together what stands several times', () => {
    expect(between('xaxbx', 'xaxxbx')).toEqual(['>x']);
    expect(between('xx', 'xxx')).toEqual(['>x']);
    expect(between('xyxy', 'yxyx')).toEqual(['xyxy>yxyx']);
  });

  it('make the new list of the old one', () => {
    const list = fc.array(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g'), { maxLength: 14 });
    fc.assert(
      fc.property(list, list, (before, after) => {
        const made: string[] = [];
        let at = 0;
        for (const { from, to, start, end } of stretchesBetween(before, after)) {
          expect(from).toBeGreaterThanOrEqual(at);
          expect(to > from || end > start).toBe(true);
          made.push(...before.slice(at, from), ...after.slice(start, end));
          at = to;
        }
        made.push(...before.slice(at));
        expect(made).toEqual(after);
      }),
    );
  });

  it('cost no square of the length', () => {
    const before = Array.from({ length: 20_000 }, (_, index) => `block ${index}`);
    const after = before.map((text, index) => (index % 1000 === 500 ? `${text} changed` : text));
    expect(stretchesBetween(before, after)).toHaveLength(20);
  });
});
