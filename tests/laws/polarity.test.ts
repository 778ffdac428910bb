/**
 * Laws of polarity: whatever maps stand in a path, light comes out where they
 * lead one after another; a cord that undoes them is right, and any two of its
 * places exchanged are not.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { composed, inverseOf, pairsSwapped, upTo } from '../../server/src/model/maps.ts';
import { judge } from '../support/judge.ts';

const names = new Set(['pair-order-broken', 'arrives-at-wrong-pair', 'lanes-out-of-order']);

interface Scheme {
  readonly near: readonly number[];
  readonly trunk: readonly number[];
  readonly turned: boolean;
  readonly duplex: boolean;
  readonly exchanged: readonly [number, number];
}

const schemes: fc.Arbitrary<Scheme> = fc.constantFrom(4, 8, 12).chain((n) => {
  const permutation = fc.shuffledSubarray([...upTo(n)], { minLength: n, maxLength: n });
  return fc.record({
    near: permutation,
    trunk: permutation,
    turned: fc.boolean(),
    duplex: fc.boolean(),
    exchanged: fc
      .shuffledSubarray([...upTo(n)], { minLength: 2, maxLength: 2 })
      .map((pair) => pair as unknown as [number, number]),
  });
});

function plan({ near, trunk, turned, duplex }: Scheme, far: readonly number[]): string {
  const n = near.length;
  return `application SERVICE {
  count       ${duplex ? 2 : n}
  wavelength  850 nm
  fibre       OM4 reach 300 m loss 9 dB
}

link KQ-T {
  fibres      1..${n}
  connector   LC
  segment     60 m OM4 map ${trunk.join(', ')}
  connector   LC
}

channel KQ-C {
  cord        2 m OM4 map ${near.join(', ')}
  link        KQ-T${turned ? ' turned' : ''}
  cord        2 m OM4 map ${far.join(', ')}
  carries     SERVICE
}
`;
}

function judged(text: string) {
  const result = judge(text).plan.result.link('KQ-C');
  if (!result) throw new Error('the channel was not judged');
  return {
    places: result.arrivals.map(({ place }) => place),
    wrong: result.doubts.filter(({ name }) => names.has(name)).length,
  };
}

it('the far cord that brings all light where it must be is right, and no other', () => {
  fc.assert(
    fc.property(schemes, (scheme) => {
      const n = scheme.near.length;
      const wanted = scheme.duplex ? pairsSwapped(n) : upTo(n).toReversed();
      const before = composed(scheme.near, scheme.turned ? inverseOf(scheme.trunk) : scheme.trunk);
      const far = composed(inverseOf(before), wanted);
      const right = judged(plan(scheme, far));
      expect(right.places).toEqual(wanted);
      expect(right.wrong).toBe(0);

      const [a, b] = scheme.exchanged;
      const other = far.map((place) => (place === a ? b : place === b ? a : place));
      const wrong = judged(plan(scheme, other));
      expect(wrong.places).toEqual(composed(before, other));
      expect(wrong.wrong).toBeGreaterThan(0);
    }),
    { numRuns: 60 },
  );
});
