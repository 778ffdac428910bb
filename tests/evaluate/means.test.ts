/**
 * A mean that is judged: of both directions of a fibre, and of a batch where a contract
 * asks it. Means, shares and margins to 1.8 dB (TIA-568.3-E) are worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import { type PartsPerMillion, partsPerMillion } from '../../grammar/src/quantity/index.ts';
import type { FibreType, PathElement } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  db,
  fibre,
  mated,
  nm,
  place,
  setup,
  stretch,
} from '../support/build.ts';
import { judged, told } from './short-link.ts';

describe('the mean of both directions', () => {
  const average = { wanted: ['A>B' as const, 'B>A' as const], average: true };
  const mean = (a: number | 'dark', b: number | 'dark', more: object = {}, using = setup()) => {
    const terms = { directions: { ...average, ...more } };
    const readings = [cell(1, a, 'A>B', 500), cell(1, b, 'B>A', 500)];
    return judged(readings, { using, terms }).readings.map(({ verdict, because, margin }) => ({
      verdict,
      because,
      margin: margin === undefined ? undefined : Number(margin) / 1e15,
    }));
  };

  it('is judged in place of each, and the margin is its own', () => {
    const because = 'judged by the average of 1.90 dB and 1.50 dB: 1.70 dB';
    const joined = { verdict: 'marginal-pass', because, margin: 0.1 };
    expect(mean(1.9, 1.5)).toEqual([joined, joined]);
    expect(mean(1.5, 1.7).map(({ verdict }) => verdict)).toEqual(['pass', 'pass']);
    expect(mean(2.1, 1.5)).toMatchObject([{ verdict: 'marginal-pass', margin: 0 }, { margin: 0 }]);
    expect(mean(2.3, 1.5)[0]).toMatchObject({ verdict: 'marginal-fail', margin: -0.1 });
  });

  it('is none where they lie further apart than allowed, or one of them is no loss', () => {
    expect(mean(1.9, 1.5, { within: db(0.4) })[0]?.because).toContain('judged by the average');
    expect(mean(1.9, 1.5, { within: db(0.399999) })).toMatchObject([
      { verdict: 'marginal-fail', because: '' },
      { verdict: 'pass', because: '' },
    ]);
    expect(mean(1.5, 1.9, { within: db(0.399999) })[0]?.because).toBe('');
    expect(mean('dark', 1.5)[1]).toMatchObject({ verdict: 'pass', because: '' });
    expect(mean(1.5, -0.5)[0]?.because).not.toContain('average');
  });

  it('is none over a step of cores', () => {
    const wide: FibreType = { ...fibre, name: 'WIDE', core: nm(62_500) };
    const terms = { directions: average };
    const readings = [cell(1, 1.2, 'A>B', 500), cell(1, 1, 'B>A', 500)];
    const step = [...betweenPairs(50), { ...stretch(50), fibre: wide } as PathElement, mated()];
    const using = setup();
    const cords = using.cords.map((one) => ({ ...one, fibreType: undefined }));
    const over = (elements: PathElement[]) =>
      judged(readings, { using: { ...using, cords }, terms, elements }).readings.map(
        ({ because }) => because,
      );
    expect(over(betweenPairs(100))[0]).toContain('judged by the average');
    expect(over(step)).toEqual(['', '']);
  });
});

describe('what a contract asks of a batch', () => {
  const asked = (losses: readonly number[], required: object) =>
    told(
      'batch-over-limit',
      losses.map((loss, at) => cell(at + 1, loss, 'A>B', 500)),
      {
        terms: {
          require: [{ kind: 'loss', sufficient: false, place: place(), ...required } as never],
        },
      },
    ).map(({ details }) => details);

  it('is its mean, or a share of it', () => {
    expect(asked([1, 1.2, 1.4], { loss: db(1.19), statistic: 'mean' })).toEqual([
      { wavelength: 850, limit: 1.19, readings: 3, within: 1, mean: 1.2, wanted: 'mean' },
    ]);
    expect(asked([1, 1.2, 1.4], { loss: db(1.2), statistic: 'mean' })).toEqual([]);
    const share = (percent: number): PartsPerMillion => partsPerMillion(percent * 10_000);
    expect(asked([1, 1.2, 1.4, 1.6], { loss: db(1.4), statistic: share(75) })).toEqual([]);
    expect(asked([1, 1.2, 1.4, 1.6], { loss: db(1.4), statistic: share(75.0001) })).toEqual([
      { wavelength: 850, limit: 1.4, readings: 4, within: 3, mean: 1.3, wanted: '75.0001 %' },
    ]);
    expect(asked([1, 1.2], { loss: db(0.5), statistic: 'mean', wavelength: nm(1300) })).toEqual([]);
    expect(asked([1, 1.2], { loss: db(0.5), statistic: 'mean', wavelength: nm(850) }).length).toBe(
      1,
    );
    expect(asked([1, 1.2], { loss: db(0.5) })).toEqual([]);
    // A reading that cannot stand is no part of it.
    expect(asked([1, 46], { loss: db(1), statistic: 'mean' })).toEqual([]);
  });
});
