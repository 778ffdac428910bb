/**
 * A design over its limit: its heaviest terms, and the length that the limit leaves.
 * Pairs of 0.75 dB and 3.0 dB/km (TIA-568.3-E) are added up by hand.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { FibreType, PathElement, PlanSettings } from '../../server/src/model/types.ts';
import {
  application,
  betweenPairs,
  carried,
  cell,
  db,
  fibre,
  mated,
  nm,
  place,
  stretch,
  welded,
} from '../support/build.ts';
import { judge } from '../support/judge.ts';
import { judged, told } from './short-link.ts';

const rate = (wavelength: number, most: number) => ({
  wavelength: nm(wavelength),
  max: ratePerKm(most * 1e6),
});

describe('a design', () => {
  const service = (loss: number) => ({ carries: [carried(application([{ reach: 900, loss }]))] });

  const asked = (loss: number) => ({
    require: [{ kind: 'loss' as const, loss: db(loss), sufficient: false, place: place() }],
  });

  it('over its limit names its heaviest terms, and how long the fibre may be', () => {
    const terms = asked(2);
    const found = judged([], { elements: betweenPairs(300), terms });
    // 1.5 dB of pairs and 0.9 dB of fibre; 0.5 dB ÷ 3.0 dB/km is left for it.
    expect(found.doubts.filter(({ name }) => name === 'budget-over-limit')).toEqual([
      {
        name: 'budget-over-limit',
        place: found.link.namePlace,
        details: {
          wavelength: 850,
          worst: 2.4,
          limit: 2,
          limitName: 'required loss 2 dB',
          limitKind: 'contract',
          over: 0.4,
          terms: 'end pairs 1.50 dB, fibre GLASS 0.90 dB',
          longest: 166.666666,
        },
      },
    ]);
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(300), terms: asked(2.4) }),
    ).toEqual([]);
  });

  it('over one limit at two wavelengths is one doubt, where it is most over', () => {
    const measure = [nm(850), nm(1300)];
    const both = (path: readonly PathElement[], loss: number) =>
      told('budget-over-limit', [], { elements: path, terms: { ...asked(loss), measure } });
    // 1.5 dB of pairs and 0.9 dB of fibre at 850 nm, 0.45 dB at 1300 nm.
    const [found, ...others] = both(betweenPairs(300), 1.8);
    expect(others).toEqual([]);
    expect(found?.details).toMatchObject({
      wavelength: 850,
      over: 0.6,
      also: '1300 nm by 0.15 dB',
      // 0.3 dB ÷ 3.0 dB/km; at 1300 nm it would be 0.3 ÷ 1.5, the double.
      longest: 100,
    });
    expect(both(betweenPairs(300), 2)[0]?.details).not.toHaveProperty('also');
    // In whatever order they are measured; of several others each is named.
    const three: FibreType = {
      ...fibre,
      attenuation: [rate(850, 3), rate(1300, 1.5), rate(953, 2)],
    };
    const path = [mated(), { ...stretch(300), fibre: three } as PathElement, mated()];
    const turned = [nm(1300), nm(953), nm(850)];
    expect(
      told('budget-over-limit', [], {
        elements: path,
        terms: { ...asked(1.8), measure: turned },
      }).map(({ details }) => [details.wavelength, details.also]),
    ).toEqual([[850, '953 nm by 0.30 dB, 1300 nm by 0.15 dB']]);
  });

  it('of four terms names three, and of two fibres no length', () => {
    const second = { ...fibre, name: 'B', meets: ['GLASS'] };
    const other = { ...stretch(100), fibreName: 'B', fibre: second } as PathElement;
    const elements = [mated(), stretch(200), welded(), other, mated(), stretch(1), mated()];
    const [found] = told('budget-over-limit', [], { elements, terms: asked(2) });
    expect(found?.details.terms).toBe(
      'end pairs 1.50 dB, mated pairs 0.75 dB, fibre GLASS 0.60 dB',
    );
    expect(found?.details).not.toHaveProperty('longest');
  });

  it('that is refused to a service for its loss is told once, of the service', () => {
    const found = judged([], { elements: betweenPairs(300), terms: service(2), fibres: 2 });
    expect(found.wavelengths[0]).toMatchObject({ governing: { kind: 'application' } });
    expect(found.wavelengths[0]!.designMargin! < 0n).toBe(true);
    const told = found.doubts.filter(({ name }) => /^(budget|application)-/u.test(name));
    expect(told).toMatchObject([
      {
        name: 'application-loss-exceeded',
        details: {
          wavelength: 850,
          loss: 2.4,
          limit: 2,
          over: 0.4,
          terms: 'mated pairs 1.50 dB, fibre GLASS 0.90 dB',
          longest: 166.666666,
        },
      },
    ]);
  });

  it('that is refused and yet read whole, one way, is what is left to doubt', () => {
    const readings = [cell(1, 1.9, 'A>B', 500), cell(2, 1.8, 'A>B', 501)];
    const asked = { elements: betweenPairs(300), terms: service(2), fibres: 2 };
    const told = (some: typeof readings) =>
      judged(some, asked)
        .doubts.map(({ name }) => name)
        .filter((name) => /^(budget|application)-/u.test(name));
    expect(told(readings.slice(0, 1))).toEqual(['application-loss-exceeded']);
    expect(told(readings)).toEqual(['budget-over-limit']);
  });

  it('that a contract asks more of than its service does is told of both', () => {
    const terms = { ...service(2), ...asked(1.8) };
    const found = judged([], { elements: betweenPairs(300), terms, fibres: 2 });
    const told = found.doubts.filter(({ name }) => /^(budget|application)-/u.test(name));
    expect(told.map(({ name, details }) => [name, details.limit])).toEqual([
      ['budget-over-limit', 1.8],
      ['application-loss-exceeded', 2],
    ]);
  });

  it('read with three cords tells what those take away, so that its terms add up', () => {
    const text = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   three-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  fibres      1..2
  plug        LC
  segment     100 m OM4
  connector   LC
  segment     100 m OM4
  plug        LC
  require     loss 1.2 dB
}
`;
    const found = judge(text).findings.find(({ name }) => name === 'budget-over-limit');
    // 3.0 dB/km × 0.2 km + 0.75 dB, and two end pairs less the two of the reference.
    expect(found?.message).toContain('1.35 dB at 850 nm, 0.15 dB over the limit of 1.20 dB');
    expect(found?.details?.terms).toBe(
      'end pairs 1.50 dB, pairs in the reference −1.50 dB, mated pairs 0.75 dB',
    );
  });

  it('that a rounded limit alone goes over is no mistake of the design', () => {
    // 1.8 dB of parts are held to 1.5 dB, rounded half up to 0.5 dB: nothing of the design.
    const rounded = {
      decision: { rule: 'flagged', accepting: 'none', rounded: db(0.5) },
    } as Partial<PlanSettings>;
    expect(told('budget-over-limit', [], { elements: betweenPairs(50), by: rounded })).toEqual([]);
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(300), by: rounded, terms: asked(2) })
        .length,
    ).toBe(1);
    // 2.1 dB of parts by a service of 2.0 dB: a tenth over, whatever is rounded.
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(200), by: rounded, terms: asked(2) })
        .length,
    ).toBe(1);
  });
});
