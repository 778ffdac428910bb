/**
 * A design over its limit: its heaviest terms, and the length that the limit leaves.
 * Pairs of 0.75 dB and 3.0 dB/km (TIA-568.3-E) are added up by hand.
 */
import { describe, expect, it } from 'vitest';
import type { PathElement, PlanSettings } from '../../server/src/model/types.ts';
import {
  application,
  betweenPairs,
  carried,
  db,
  fibre,
  mated,
  stretch,
  welded,
} from '../support/build.ts';
import { judged, told } from './short-link.ts';

describe('a design', () => {
  const service = (loss: number) => ({ carries: [carried(application([{ reach: 900, loss }]))] });

  it('over its limit names its heaviest terms, and how long the fibre may be', () => {
    const terms = service(2);
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
          limitName: 'SERVICE, GLASS, 900 m, 2 dB',
          limitKind: 'application',
          over: 0.4,
          terms: 'end pairs 1.50 dB, fibre GLASS 0.90 dB',
          longest: 166.666666,
        },
      },
    ]);
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(300), terms: service(2.4) }),
    ).toEqual([]);
  });

  it('of four terms names three, and of two fibres no length', () => {
    const second = { ...fibre, name: 'B', meets: ['GLASS'] };
    const other = { ...stretch(100), fibreName: 'B', fibre: second } as PathElement;
    const elements = [mated(), stretch(200), welded(), other, mated(), stretch(1), mated()];
    const [found] = told('budget-over-limit', [], { elements, terms: service(2) });
    expect(found?.details.terms).toBe(
      'end pairs 1.50 dB, mated pairs 0.75 dB, fibre GLASS 0.60 dB',
    );
    expect(found?.details).not.toHaveProperty('longest');
  });

  it('that a rounded limit alone goes over is no mistake of the design', () => {
    // 1.8 dB of parts are held to 1.5 dB, rounded half up to 0.5 dB: nothing of the design.
    const rounded = {
      decision: { rule: 'flagged', accepting: 'none', rounded: db(0.5) },
    } as Partial<PlanSettings>;
    expect(told('budget-over-limit', [], { elements: betweenPairs(50), by: rounded })).toEqual([]);
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(300), by: rounded, terms: service(2) })
        .length,
    ).toBe(1);
    // 2.1 dB of parts by a service of 2.0 dB: a tenth over, whatever is rounded.
    expect(
      told('budget-over-limit', [], { elements: betweenPairs(200), by: rounded, terms: service(2) })
        .length,
    ).toBe(1);
  });
});
