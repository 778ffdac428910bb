/**
 * Figures of a limits set: its own kinds and modes first, else what the part says.
 * Which figure counts follows from the help of each word; numbers are ours.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import { setFigures } from '../../server/src/evaluate/figures.ts';
import type { FibreType, LimitsSet, Mode } from '../../server/src/model/types.ts';
import { connector, db, fibre, limitsSet, nm, place } from '../support/build.ts';
import { each, part, split, weld } from './pieces.ts';

describe('figures of a limits set', () => {
  const entry = (connectorName: string, loss: number, mode?: Mode, grade = 'installed') => ({
    connector: connectorName,
    grade,
    loss: db(loss),
    ...(mode && { mode }),
    place: place(),
  });
  const of = (more: Partial<LimitsSet>, mode: Mode | undefined = 'multimode') =>
    setFigures(limitsSet('SET', 0.75, 3, more), nm(850), mode);

  it('are those of the kind before those of any, of the mode before those of all', () => {
    const connectors = [
      entry('any', 0.75),
      entry('LC', 0.5),
      entry('any', 0.6, 'multimode'),
      entry('LC', 0.4, 'single-mode'),
    ];
    const pair = (name: string | undefined, mode?: Mode) =>
      each(of({ connector: connectors as never }, mode).pair(name, undefined, 'installed'));
    expect(pair('LC')).toBe(0.5);
    expect(pair('SC')).toBe(0.6);
    expect(pair(undefined)).toBe(0.6);
    expect(pair('LC', 'single-mode')).toBe(0.4);
    expect(pair('SC', 'single-mode')).toBe(0.75);
    expect(pair('LC', 'plastic')).toBe(0.5);
  });

  it('say where they stand, and how far they can be trusted', () => {
    const graded = [
      entry('LC', 0.1, undefined, 'reference'),
      entry('any', 0.3, undefined, 'end'),
      { ...entry('any', 0.75), trust: 'recalled' },
    ];
    const figures = of({ connector: graded as never, edition: 'clause 7' });
    expect(figures.name).toBe('SET');
    expect(figures.pair('LC', connector, 'reference')).toEqual({
      each: db(0.1),
      source: 'clause 7, pair LC of reference-grade plugs',
      trust: undefined,
      place: graded[0]?.place,
    });
    expect(figures.pair('LC', connector, 'end')?.source).toBe(
      'clause 7, any pair with a reference-grade plug',
    );
    expect(figures.pair('LC', connector, 'installed')).toMatchObject({
      source: 'clause 7, any pair',
      trust: 'recalled',
    });
    expect(of({}).rate('GLASS', fibre)).toMatchObject({
      each: 3_000_000,
      source: 'SET, fibre GLASS at 850 nm',
    });
    expect(of({}).splice(weld)?.source).toBe('SET, splice any');
  });

  it('of a pair are its own where the set has none, of installed pairs alone', () => {
    const bare = of({ connector: [] });
    expect(bare.pair('PAIR', connector, 'installed')).toEqual({
      each: db(0.75),
      source: 'PAIR, greatest',
      trust: undefined,
      place: connector.place,
    });
    expect(bare.pair('PAIR', connector, 'end')).toBeUndefined();
    expect(bare.pair('PAIR', connector, 'reference')).toBeUndefined();
    expect(bare.pair('PAIR', undefined, 'installed')).toBeUndefined();
  });

  it('of fibre are those of its name, else of the nearest that it meets', () => {
    const rates = ['B', 'C'].map((name, at) => ({
      fibre: name,
      wavelength: nm(850),
      rate: ratePerKm(2_000_000 + at),
      place: place(),
    }));
    const { rate } = of({ fibre: rates });
    const glass: FibreType = { ...fibre, name: 'A', meets: ['X', 'C', 'B'] };
    expect(rate('A', glass)).toMatchObject({ each: 2_000_001, source: 'SET, fibre C at 850 nm' });
    expect(rate('B', glass)?.each).toBe(2_000_000);
    expect(rate('A', undefined)).toBeUndefined();
    expect(
      setFigures(limitsSet('SET', 0.75, 3, { fibre: rates }), nm(1300), 'multimode').rate(
        'B',
        glass,
      ),
    ).toBeUndefined();
  });

  it('of a splice may be tighter in a sum than alone', () => {
    const figures = of({
      splice: [
        { splice: 'any', loss: db(0.3), place: place() },
        { splice: 'WELD', loss: db(0.2), objective: db(0.1), place: place() },
      ],
    });
    expect([each(figures.splice(weld)), each(figures.spliceAlone(weld))]).toEqual([0.1, 0.2]);
    const other = { ...weld, name: 'OTHER' };
    expect([each(figures.splice(other)), each(figures.spliceAlone(other))]).toEqual([0.3, 0.3]);
    const bare = of({ splice: [] });
    expect([each(bare.splice(weld)), each(bare.spliceAlone(weld))]).toEqual([0.3, 0.3]);
    expect(bare.splice({ ...weld, type: undefined })).toBeUndefined();
  });

  it('of a part are those of its name; of one that joins, no others', () => {
    const named = { part: 'PAD', loss: db(1), place: place() };
    const any = { part: 'any', loss: db(2), place: place() };
    const loss = [{ max: db(3) }];
    const asked = (entries: readonly object[], joins?: readonly [string, string]) => {
      const found = of({ part: entries as never }).part(part(loss, joins));
      return [each(found), found?.source];
    };
    expect(asked([any, named])).toEqual([1, 'SET, part PAD']);
    expect(asked([any, named], ['MPO', 'LC'])).toEqual([1, 'SET, part PAD']);
    expect(asked([any])).toEqual([2, 'SET, part any']);
    expect(asked([any], ['MPO', 'LC'])).toEqual([undefined, undefined]);
    expect(asked([])).toEqual([3, 'PAD, greatest']);
    // The figure of another part is none of this one.
    expect(asked([{ ...named, part: 'OTHER' }])).toEqual([3, 'PAD, greatest']);
    expect(asked([{ ...named, part: 'OTHER' }, any])).toEqual([2, 'SET, part any']);
    expect(asked([{ ...named, mode: 'single-mode' }, any])).toEqual([2, 'SET, part any']);
    expect(asked([{ ...named, mode: 'multimode', loss: db(0.9) }, named])).toEqual([
      0.9,
      'SET, part PAD',
    ]);
  });

  it('of a splitter and of a step of cores', () => {
    const taken_ = [{ part: 'FOURTH', loss: db(7), place: place() }];
    expect(each(of({ part: taken_ }).split(split([{ max: db(7.4) }], 1)))).toBe(7);
    expect(of({ part: taken_ }).split(split([], 1))?.source).toBe('SET, part FOURTH');
    expect(each(of({}).split(split([{ max: db(7.4) }], 1)))).toBe(7.4);
    const steps = of({
      coreStep: [{ from: 'WIDE', to: 'GLASS', loss: db(1.9), place: place() }] as never,
    });
    const wide: FibreType = { ...fibre, name: 'W', meets: ['WIDE'] };
    expect(steps.step(wide, fibre)).toMatchObject({
      each: db(1.9),
      source: 'SET, core step WIDE to GLASS',
    });
    expect(steps.step(fibre, wide)).toBeUndefined();
    expect(steps.step(wide, wide)).toBeUndefined();
    expect(steps.step(undefined, fibre)).toBeUndefined();
  });
});
