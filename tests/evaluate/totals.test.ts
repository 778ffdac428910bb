/** Folds over links, counted by hand; that steps and a fresh count agree is a law (tests/laws/verdict.test.ts). */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import {
  addTotals,
  emptyTotals,
  type LinkResult,
  readTotals,
  removeTotals,
} from '../../server/src/evaluate/index.ts';
import { cell, db, evaluate, evidence, link, mated, oneWay, stretch } from '../support/build.ts';

/** A link of two fibres under 1.8 dB with U 0.15, of which those with a loss were read. */
const result = (name: string, ...losses: readonly number[]): LinkResult =>
  evaluate(
    { ...link([mated(), stretch(100), mated()], oneWay, 2), name },
    evidence({ readings: losses.map((loss, index) => cell(index + 1, loss, 'A>B', 500)) }),
  );

const totalsOf = (...results: readonly LinkResult[]) => {
  const totals = emptyTotals();
  for (const one of results) addTotals(totals, one);
  return totals;
};
const worst = (...results: readonly LinkResult[]) => readTotals(totalsOf(...results)).worst;

describe('totals', () => {
  const [good, half, bad] = [result('A', 1, 1.2), result('B', 1.1), result('C', 1, 2.5)];

  it('of nothing are nothing, and nothing is accepted', () => {
    const totals = readTotals(emptyTotals());
    expect(totals).toMatchObject({ links: 0, fibres: 0, expected: 0, present: 0, accepted: false });
    expect(totals.worst).toBeUndefined();
    expect(Object.values(totals.counts)).toEqual(new Array(9).fill(0));
  });

  it('add up links, fibres, what is expected, what is there and each verdict', () => {
    const totals = readTotals(totalsOf(good, half, bad));
    expect(totals).toMatchObject({ links: 3, fibres: 6, expected: 6, present: 5, accepted: false });
    expect(totals.counts).toMatchObject({ pass: 4, untested: 1, fail: 1, 'marginal-fail': 0 });
  });

  it('are accepted where every link is', () => {
    expect(readTotals(totalsOf(good)).accepted).toBe(true);
    expect(readTotals(totalsOf(good, half)).accepted).toBe(false);
    const totals = totalsOf(good, half);
    removeTotals(totals, half);
    expect(readTotals(totals)).toMatchObject({ links: 1, fibres: 2, expected: 2, accepted: true });
    removeTotals(totals, good);
    expect(readTotals(totals)).toEqual(readTotals(emptyTotals()));
  });

  it('name the smallest margin and its link: 1.8 − 2.5', () => {
    expect(worst(good, half, bad)).toMatchObject({ link: 'C', margin: exactDb(db(-0.7)) });
    expect(worst(bad, half, good)?.link).toBe('C');
    expect(worst(good, half)?.reading).toMatchObject({ fibre: 2, loss: db(1.2) });
  });

  it('of equal margins name the link whose name comes first, whatever the order', () => {
    const named = ['D', 'B', 'E', 'C'].map((name) => result(name, 1.5));
    expect(worst(...named)?.link).toBe('B');
    expect(worst(...named.toReversed())?.link).toBe('B');
  });

  it('find the next worst when the worst is taken out, among many', () => {
    const many = Array.from({ length: 9 }, (_, index) => result(`L${index}`, 1 + index / 10));
    const totals = totalsOf(...many);
    for (const [index, one] of many.toReversed().entries()) {
      expect(readTotals(totals).worst?.link).toBe(`L${8 - index}`);
      removeTotals(totals, one);
    }
    expect(readTotals(totals).worst).toBeUndefined();
    addTotals(totals, good);
    expect(readTotals(totals)).toEqual(readTotals(totalsOf(good)));
  });

  it('count a link once, and take out only what they hold', () => {
    const totals = totalsOf(good);
    expect(() => addTotals(totals, good)).toThrow('A is counted already');
    expect(() => removeTotals(totals, half)).toThrow('B is not counted');
    expect(readTotals(totals).links).toBe(1);
  });

  it('that were read do not change with what comes after', () => {
    const totals = totalsOf(good);
    const before = readTotals(totals);
    addTotals(totals, bad);
    expect(before.counts.fail).toBe(0);
    expect(before.links).toBe(1);
  });
});
