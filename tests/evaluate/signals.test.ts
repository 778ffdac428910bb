/**
 * What a path does to the signal, whole and worked out by hand: delay = n·L ÷ c;
 * dispersion = D·L, and D near its zero is S0 ÷ 4 · (λ − λ0⁴ ÷ λ³); bandwidth falls with
 * length; polarisation mode dispersion adds by squares.
 */
import { describe, expect, it } from 'vitest';
import { partsPerMillion } from '../../grammar/src/quantity/index.ts';
import type {
  ApplicationType,
  Cable,
  FibreType,
  LinkModel,
  TransceiverType,
} from '../../server/src/model/types.ts';
import { judged as signalled } from '../published/judged.ts';
import { metres, nm, place, when } from '../support/build.ts';
import { type Asked, far, judged, pair, plant, segment, transceiver } from './lit-link.ts';

/** Of light, in m/s. */
const speed = 299_792_458;

describe('the signal of a path', () => {
  const signal = (asked: Asked = {}) => judged({ modules: [], ...asked }).signal;

  it('is told of the object as it is, and with what it carries', () => {
    const {
      signal: found,
      carries,
      link: model,
    } = judged({ modules: [], more: { cords: [metres(3), metres(2)] } });
    const delay = (length: number) => Math.round((length * 1.468 * 1e15) / speed);
    const [own, service_] = found;
    expect(own?.delay).toBeCloseTo(delay(10_000), -1);
    expect(service_?.delay).toBeCloseTo(delay(10_005), -1);
    const trust = { delay: 'read', dispersion: 'recalled', pmd: 'read' };
    expect(own).toMatchObject({
      application: undefined,
      wavelength: nm(1550),
      direction: undefined,
      length: metres(10_000),
      bandwidth: [],
      dispersion: 180_000_000,
      trust,
      unknown: [],
      place: model.namePlace,
    });
    // 0.2 ps/√km over 10 km.
    expect(own?.pmd).toBeCloseTo(200_000 * Math.sqrt(10), 0);
    expect(service_).toMatchObject({
      application: 'SERVICE',
      length: metres(10_005),
      // 18 ps/(nm·km) over 10.005 km.
      dispersion: 180_090_000,
      skew: 0,
      place: carries.place,
    });
    expect(found.length).toBe(2);
  });

  it('goes along the fibre, which is longer than its cable', () => {
    const cable = { excess: partsPerMillion(10_000) } as Cable;
    expect(
      signal({ elements: [pair(), segment(10_000, plant, { cable }), pair()] })[0],
    ).toMatchObject({
      length: metres(10_100),
      dispersion: 181_800_000,
    });
  });

  it('says what a fibre does not state', () => {
    const bare: FibreType = { ...plant, name: 'BARE', index: [], dispersion: [], pmd: undefined };
    const [found] = signal({ elements: [pair(), segment(4000), segment(6000, bare), pair()] });
    expect(found?.unknown).toEqual([
      'BARE states no group index at 1550 nm',
      'BARE states no dispersion at 1550 nm',
      'BARE states no polarisation mode dispersion',
    ]);
    expect([found?.delay, found?.dispersion, found?.pmd]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(found?.trust).toEqual({ delay: undefined, dispersion: undefined, pmd: undefined });
    const [short] = signal({ elements: [pair(), segment(undefined), pair()] });
    expect(short?.unknown).toEqual(['the length of a stretch of PLANT is not known']);
    expect(short?.length).toBeUndefined();
    // Without fibre nothing adds up, and no figure was read for it.
    const [none] = signal({ elements: [pair(), pair()] });
    expect([none?.delay, none?.trust]).toEqual([
      0,
      { delay: undefined, dispersion: undefined, pmd: undefined },
    ]);
  });

  it('of multimode is bandwidth by launch, at its own light before that of its window', () => {
    const entry = (
      wavelength: number,
      launch: string,
      min: number,
      trust?: 'read' | 'recalled',
    ) => ({
      wavelength: nm(wavelength),
      launch,
      min,
      ...(trust && { trust }),
    });
    const multi = (...bandwidth: readonly ReturnType<typeof entry>[]): FibreType => ({
      ...plant,
      name: 'MULTI',
      mode: 'multimode',
      bandwidth: bandwidth as never,
    });
    const of = (type: FibreType, length = 500) =>
      signal({
        elements: [pair(), segment(length, type), pair()],
        model: { mode: 'multimode' },
      })[0];
    const both = of(
      multi(
        entry(1550, 'over-filled', 500, 'read'),
        entry(1550, 'effective', 4700, 'recalled'),
        entry(1540, 'over-filled', 100),
      ),
    );
    // 500 and 4700 MHz·km over 0.5 km.
    expect(both?.bandwidth).toEqual([
      { launch: 'effective', value: 9_400_000, trust: 'recalled' },
      { launch: 'over-filled', value: 1_000_000, trust: 'read' },
    ]);
    expect([both?.dispersion, both?.pmd, both?.unknown]).toEqual([undefined, undefined, []]);
    const window = [entry(1545, 'over-filled', 300), entry(1560, 'over-filled', 100)];
    for (const entries of [window, window.toReversed()]) {
      const near = of(multi(...entries, entry(1500, 'effective', 900)));
      expect(near?.bandwidth.map(({ launch, value }) => [launch, value])).toEqual([
        ['over-filled', 600_000],
      ]);
    }
    const silent = of(multi());
    expect([silent?.bandwidth, silent?.unknown]).toEqual([
      [],
      ['no fibre of the path states a bandwidth at this wavelength'],
    ]);
    const mixed = signal({
      elements: [
        pair(),
        segment(500, multi(entry(1550, 'over-filled', 500))),
        segment(500, { ...multi(), name: 'OTHER' }),
        pair(),
      ],
      model: { mode: 'multimode' },
    })[0];
    expect(mixed?.unknown).toEqual(['OTHER states no over-filled bandwidth at 1550 nm']);
  });

  it('of multimode over two ways is the lesser of each launch that both state', () => {
    const entry = (launch: string, min: number) => ({ wavelength: nm(1550), launch, min });
    const multi = (...bandwidth: readonly ReturnType<typeof entry>[]): FibreType => ({
      ...plant,
      name: 'MULTI',
      mode: 'multimode',
      bandwidth: bandwidth as never,
    });
    const both = multi(entry('over-filled', 500), entry('effective', 4700));
    const ways = (put: FibreType, fibres: readonly number[]) => {
      const path = [segment(500, put)];
      const repairs = [{ name: 'R-1', fibres, on: when(500), path, place: place() }];
      return signal({
        elements: [pair(), segment(500, both), pair()],
        model: { mode: 'multimode', repairs },
      })[1]?.bandwidth.map(({ launch, value, trust }) => [launch, value, trust]);
    };
    for (const fibres of [[1], [2]]) {
      // 500 and 4700 MHz·km over 0.5 km in one fibre, over 1 km in the other.
      expect(ways(both, fibres)).toEqual([
        ['effective', 4_700_000, undefined],
        ['over-filled', 500_000, undefined],
      ]);
      const recalled = { ...entry('over-filled', 500), trust: 'recalled' };
      expect(ways(multi(recalled), fibres)).toEqual([['over-filled', 500_000, 'recalled']]);
    }
  });

  it('of two ways is the worse, known as well as the worse, and says what either does not state', () => {
    const ways = (put: FibreType, fibres: readonly number[]) => {
      const path = [segment(6_000, put)];
      const repairs = [{ name: 'R-1', fibres, on: when(500), path, place: place() }];
      return signal({ model: { repairs } })[1];
    };
    const { pmd, index } = plant;
    const old: FibreType = {
      ...plant,
      name: 'OLD',
      pmd: pmd && { ...pmd, trust: 'recalled' },
      index: index.map((one) => ({ ...one, trust: 'recalled' })),
    };
    const bare: FibreType = { ...plant, name: 'BARE', pmd: undefined };
    for (const fibres of [[1], [2]]) {
      const found = ways(old, fibres);
      // 0.2 ps/√km over 16 km.
      expect(found?.pmd).toBeCloseTo(800_000, 0);
      expect(found?.trust).toMatchObject({ pmd: 'recalled', delay: 'recalled' });
      expect(ways(bare, fibres)).toMatchObject({
        pmd: undefined,
        unknown: ['BARE states no polarisation mode dispersion'],
      });
    }
  });

  it('of some fibres of a link is not that of a channel over others', () => {
    const { link: found } = signalled(`plan "Signal" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1550 nm max 0.3 dB/km
}

application SERVICE {
  count       2
  wavelength  1550 nm
  fibre       GLASS reach 40 km loss 11 dB
}

link TRUNK {
  fibres      1..4
  connector   LC
  segment     20 km GLASS
  connector   LC
  carries     SERVICE fibres 1..2
}

channel NEAR {
  cord        10 m GLASS
  link        TRUNK fibres 1..2
}

channel FAR {
  cord        5 km GLASS
  link        TRUNK fibres 3..4
}
`);
    const carried = found('TRUNK').signal.filter(({ application }) => application === 'SERVICE');
    expect(carried.map(({ length }) => length)).toEqual([metres(20_010)]);
  });

  it('is skewed where fibres that work together differ', () => {
    const repair = (fibres: readonly number[]) => ({
      repairs: [{ name: 'R-1', fibres, on: when(500), path: [segment(120)], place: place() }],
    });
    const skew = (model: Partial<LinkModel>, type?: Partial<ApplicationType>) =>
      signal({ model, ...(type && { type }) })[1];
    const late = Math.round((120 * 1.468 * 1e15) / speed);
    expect(skew(repair([2]))?.skew).toBeCloseTo(late, -2);
    expect(skew(repair([2]))).toMatchObject({ length: metres(10_120), dispersion: 182_160_000 });
    expect(skew(repair([1, 2]))?.skew).toBe(0);
    expect(skew(repair([2]), { count: 1 })?.skew).toBeUndefined();
    const four = { ...repair([3, 4]), fibres: [1, 2, 3, 4] };
    expect(skew(four)?.skew).toBe(0);
    expect(skew(four, { count: 4 })?.skew).toBeCloseTo(late, -2);
    const bare: FibreType = { ...plant, name: 'BARE', index: [] };
    const unknown = {
      repairs: [
        { name: 'R-1', fibres: [2], on: when(500), path: [segment(9, bare)], place: place() },
      ],
    };
    expect(skew(unknown)).toMatchObject({
      skew: undefined,
      delay: undefined,
      dispersion: 180_162_000,
    });
  });

  it('is that of what is sent, each way where senders differ', () => {
    const sent = (modules: readonly TransceiverType[], asked: Asked = {}) =>
      signal({ modules, ...asked })
        .slice(1)
        .map(({ wavelength, direction }) => [wavelength / 1000, direction]);
    const at = (name: string, nominal: number) =>
      transceiver(name, { wavelength: { nominal: nm(nominal) } });
    expect(sent([far])).toEqual([[1550, undefined]]);
    expect(sent([at('A', 1545)])).toEqual([[1545, undefined]]);
    expect(sent([at('A', 1310)])).toEqual([[1550, undefined]]);
    expect(sent([at('A', 1545), at('B', 1555)])).toEqual([
      [1545, 'A>B'],
      [1555, 'B>A'],
    ]);
    const one = { type: { wavelengths: [{ wavelength: nm(1550), direction: 'B>A' as const }] } };
    expect(sent([at('A', 1545), at('B', 1555)], one)).toEqual([[1555, 'B>A']]);
    expect(sent([far], { model: { wavelength: nm(1551) } })).toEqual([[1551, undefined]]);
  });

  it('spreads over all that the light of its sender may be', () => {
    const zeroed: FibreType = {
      ...plant,
      name: 'ZERO',
      dispersion: [
        { kind: 'zero', min: nm(1300), max: nm(1324), slope: 92_000, trust: 'read' } as never,
      ],
    };
    const elements = [pair(), segment(1000, zeroed), pair()];
    // S0 ÷ 4 · (λ − λ0⁴ ÷ λ³) at 1560 nm with its zero at 1300 nm, in 1e-6 ps/nm.
    const most = Math.round((92_000 / 4) * (1560 - 1300 ** 4 / 1560 ** 3));
    const wide = transceiver('WIDE', {
      wavelength: { nominal: nm(1550), min: nm(1540), max: nm(1560) } as never,
    });
    expect(signal({ elements, modules: [wide] })[1]).toMatchObject({
      dispersion: most,
      trust: { dispersion: 'read' },
    });
    const below = transceiver('BELOW', {
      wavelength: { nominal: nm(1550), min: nm(1200), max: nm(1210) } as never,
    });
    const least = Math.round((92_000 / 4) * (1200 - 1324 ** 4 / 1200 ** 3));
    expect(signal({ elements, modules: [below] })[1]?.dispersion).toBe(Math.abs(least));
  });

  it('is stated at its light, and beyond it what zero and slope make more of it', () => {
    const most = (zero: number, at: number) => (92_000 / 4) * (at - zero ** 4 / at ** 3);
    const zero = { kind: 'zero', min: nm(1300), max: nm(1324), slope: 92_000, trust: 'read' };
    const stated = (max: number, trust?: 'read' | 'recalled') => ({
      ...{ kind: 'greatest', wavelength: nm(1550), max },
      ...(trust && { trust }),
    });
    const of = (dispersion: readonly object[], light: Partial<TransceiverType['wavelength']>) => {
      const type = { ...plant, name: 'GLASS', dispersion: dispersion as never };
      const wavelength = { nominal: nm(1550), ...light } as never;
      const found = signal({
        elements: [pair(), segment(1000, type), pair()],
        modules: [transceiver('SENDER', { wavelength })],
      })[1];
      const { dispersion: sum, trust, unknown } = found!;
      return sum === undefined ? unknown : [sum, trust.dispersion];
    };
    const wide = { min: nm(1540), max: nm(1560) };
    // 18.6 ps/(nm·km) at 1560 nm by zero and slope.
    const computed = Math.round(most(1300, 1560));
    expect(computed).toBeGreaterThan(18_000_000);
    expect(of([zero, stated(18_000_000, 'recalled')], wide)).toEqual([computed, 'recalled']);
    expect(of([zero, stated(18_000_000, 'read')], wide)).toEqual([computed, 'read']);
    expect(of([zero, stated(18_000_000)], wide)).toEqual([computed, undefined]);
    const recalled = { ...zero, trust: 'recalled' };
    expect(of([recalled, stated(18_000_000, 'read')], wide)).toEqual([computed, 'recalled']);
    expect(of([zero, stated(20_000_000, 'read')], wide)).toEqual([20_000_000, 'read']);
    expect(of([zero, stated(18_000_000, 'recalled')], {})).toEqual([18_000_000, 'recalled']);
    expect(of([stated(18_000_000, 'read')], wide)).toEqual([18_000_000, 'read']);
    // One bound of the zero alone is both of them; without a slope nothing follows from it.
    const { min: _, ...upper } = zero;
    expect(of([upper], wide)).toEqual([Math.round(most(1324, 1560)), 'read']);
    const { max: __, ...lower } = zero;
    const far = { min: nm(1200), max: nm(1210) };
    expect(of([lower], far)).toEqual([Math.abs(Math.round(most(1300, 1200))), 'read']);
    const { slope: ___, ...flat } = zero;
    expect(of([flat], wide)).toContain('GLASS states no dispersion at 1550 nm');
  });

  it('of a length that is unknown on purpose says nothing', () => {
    expect(signal({ elements: [pair(), segment(0, plant, { deliberate: true }), pair()] })).toEqual(
      [],
    );
  });
});
