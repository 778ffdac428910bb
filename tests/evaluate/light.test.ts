/**
 * What light of transceivers leaves and what a path does to its signal, whole and
 * worked out by hand: least launch − greatest loss − penalty − reserves − least
 * input, and greatest input − (greatest launch − least loss) (ITU-T G.957 clause 8,
 * G.Sup39 clause 9); delay = n·L ÷ c; polarisation mode dispersion adds by squares.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, partsPerMillion, ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  ApplicationType,
  Cable,
  Carried,
  FibreType,
  LinkModel,
  PathElement,
  Terms,
  TransceiverType,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  connector,
  db,
  dbm,
  evaluate,
  evidence,
  link,
  metres,
  nm,
  place,
  splice,
  when,
} from '../support/build.ts';

const speed = 299_792_458;
const plant: FibreType = {
  kind: 'fibre',
  name: 'PLANT',
  place: place(),
  namePlace: place(),
  origin: 'plan',
  basis: [],
  notes: [],
  mode: 'single-mode',
  core: nm(9_000),
  attenuation: [{ wavelength: nm(1550), min: ratePerKm(180_000), max: ratePerKm(220_000) }],
  meets: [],
  bandwidth: [],
  index: [{ wavelength: nm(1550), value: 1.468, trust: 'read' }],
  modeField: [],
  dispersion: [{ kind: 'greatest', wavelength: nm(1550), max: 18_000_000, trust: 'recalled' }],
  pmd: { max: 200_000, trust: 'read' },
};
const segment = (
  length: number | undefined,
  type: FibreType = plant,
  more: object = {},
): PathElement => ({
  kind: 'segment',
  length: length === undefined ? undefined : metres(length),
  deliberate: false,
  fibre: type,
  fibreName: type.name,
  place: place(),
  ...more,
});
const pair = (): PathElement => ({
  kind: 'connector',
  name: 'PAIR',
  type: { ...connector, loss: [{ max: db(0.5) }] },
  place: place(),
});
const weld = (loss = 0.1): PathElement => ({
  kind: 'splice',
  name: `WELD-${loss}`,
  type: { ...splice, name: `WELD-${loss}`, loss: [{ max: db(loss) }] },
  place: place(),
});
/** 10 km between two pairs, one splice: 2.2 + 1.0 + 0.1 dB at most, 1.8 dB at least. */
const path = (): PathElement[] => [pair(), segment(4000), weld(), segment(6000), pair()];

const transceiver = (name: string, more: Partial<TransceiverType> = {}): TransceiverType => ({
  ...{ name, place: place(), namePlace: place(), origin: 'plan' as const, basis: [], notes: [] },
  kind: 'transceiver',
  applications: [],
  wavelength: { nominal: nm(1550) },
  output: { min: dbm(-4), max: dbm(1) } as never,
  input: { min: dbm(-20), max: dbm(-3) } as never,
  ...more,
});
const far = transceiver('FAR', {
  penalty: { loss: db(2) },
  dispersion: 800_000_000,
  damage: dbm(3),
});

const service: ApplicationType = {
  ...application([]),
  count: 2,
  wavelengths: [{ wavelength: nm(1550) }],
  rows: [{ fibre: 'PLANT', reach: metres(80_000), loss: db(25), place: place() }],
};

interface Asked {
  readonly modules?: readonly TransceiverType[];
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly more?: Partial<Carried>;
  readonly type?: Partial<ApplicationType>;
}
function judged({ modules = [far], elements = path(), terms, model, more, type }: Asked = {}) {
  const carries: Carried = {
    ...carried({ ...service, ...type }),
    modules,
    transceivers: modules.map(({ name }) => ({ name })) as never,
    ...more,
  };
  const whole = {
    ...link(elements, { measure: [nm(1550)], limits: [], carries: [carries], ...terms }, 2),
    mode: 'single-mode' as const,
    ...model,
  };
  return { ...evaluate(whole, evidence()), carries };
}
const window = (asked: Asked = {}) => judged(asked).power[0];
const inDb = (value: bigint | undefined) =>
  value === undefined ? undefined : Number(value) / 1e15;

describe('a window of power', () => {
  it('is told with all that it is made of', () => {
    const { power, carries } = judged({
      terms: { reserve: { splices: 1, repairs: 2, ageing: db(0.5) } },
    });
    const [first, second] = power;
    const { terms, ...rest } = first!;
    expect(rest).toEqual({
      application: 'SERVICE',
      direction: 'A>B',
      wavelength: nm(1550),
      from: 'FAR',
      to: 'FAR',
      launch: far.output,
      input: far.input,
      mismatches: [],
      recalled: false,
      uncounted: [],
      place: carries.place,
      leastLoss: exactDb(db(1.8)),
      // −3 − (1 − 1.8) and 3 − (1 − 1.8).
      overloadMargin: exactDb(db(-2.2)),
      damageMargin: exactDb(db(3.8)),
      dispersion: { path: 180_000_000, trust: 'recalled', bears: 800_000_000 },
      greatestLoss: exactDb(db(3.3)),
      // −4 − 3.3 − 2 − 5 · 0.1 − 0.5 + 20.
      margin: exactDb(db(9.7)),
      attenuator: { least: exactDb(db(2.2)), most: exactDb(db(9.7)) },
    });
    expect(second).toMatchObject({ direction: 'B>A', margin: exactDb(db(9.7)) });
    expect(
      terms.map(({ what, role, count, total, source }) => [what, role, count, inDb(total), source]),
    ).toEqual([
      ['mated pairs', 'pair', 2, 1, 'PAIR, greatest'],
      ['fibre PLANT', 'fibre', 1, 2.2, 'fibre PLANT at 1550 nm, greatest'],
      ['splices', 'splice', 1, 0.1, 'WELD-0.1, greatest'],
      ['penalty', 'penalty', 1, 2, 'transceiver FAR'],
      ['splices held in reserve', 'reserve', 5, 0.5, 'WELD-0.1, greatest'],
      ['ageing', 'reserve', 1, 0.5, 'reserve of the plan'],
    ]);
  });

  it('needs no attenuator where nothing is too bright', () => {
    const dim = transceiver('DIM', { input: { min: dbm(-20), max: dbm(-0.8) } as never });
    const found = window({ modules: [dim] });
    expect([
      inDb(found?.overloadMargin),
      found?.attenuator,
      found?.damageMargin,
      found?.dispersion,
    ]).toEqual([0, undefined, undefined, undefined]);
    expect(found?.terms.map(({ what }) => what)).toEqual(['mated pairs', 'fibre PLANT', 'splices']);
  });

  it('goes from one end to the other, each its own way', () => {
    const near = transceiver('NEAR', {
      output: { min: dbm(-8), max: dbm(-2) } as never,
      penalty: { loss: db(1) },
    });
    const { power } = judged({ modules: [near, far] });
    expect(
      power.map(({ direction, from, to, margin }) => [direction, from, to, inDb(margin)]),
    ).toEqual([
      // −8 − 3.3 − 2 + 20 and −4 − 3.3 − 1 + 20.
      ['A>B', 'NEAR', 'FAR', 6.7],
      ['B>A', 'FAR', 'NEAR', 11.7],
    ]);
    const one = judged({
      modules: [far],
      type: { wavelengths: [{ wavelength: nm(1550), direction: 'B>A' }] },
    });
    expect(one.power.map(({ direction }) => direction)).toEqual(['B>A']);
  });

  it('has none where a transceiver is not declared, or does not say enough', () => {
    expect(judged({ modules: [] }).power).toEqual([]);
    expect(judged({ modules: [far], more: { transceivers: [{}, {}] as never } }).power).toEqual([]);
    const mute = transceiver('MUTE', { output: undefined });
    expect(window({ modules: [mute, far] })).toMatchObject({
      because: 'MUTE does not say all that a window needs',
      terms: [],
    });
    expect(judged({ modules: [mute, far] }).power[1]?.because).toBeUndefined();
    const deaf = transceiver('DEAF', { input: undefined });
    expect(window({ modules: [far, deaf] })?.because).toBe(
      'DEAF does not say all that a window needs',
    );
    const dark = transceiver('DARK', { wavelength: undefined });
    expect(window({ modules: [dark], type: { wavelengths: [] } })).toBeUndefined();
    expect(window({ modules: [dark] })).toMatchObject({
      wavelength: nm(1550),
      margin: exactDb(db(12.7)),
    });
  });

  it('has no margin where a loss is not known, and says why', () => {
    const found = window({ elements: [pair(), segment(undefined), pair()] });
    expect(found).toMatchObject({ because: 'a length of PLANT is missing' });
    expect(found).not.toHaveProperty('margin');
    const gone: PathElement = { kind: 'link', name: 'KQ-9', turned: false, place: place() };
    const channel = { kind: 'channel' as const };
    expect(window({ elements: [...path(), gone], model: channel })?.because).toBe(
      'KQ-9 is not known',
    );
    const unspliced = [pair(), segment(10_000), pair()];
    const reserve = { splices: 1, repairs: 0, ageing: db(0) };
    expect(window({ elements: unspliced, terms: { reserve } })?.because).toBe(
      'no figure for the splices that are held in reserve',
    );
  });

  it('reserves the worst splice of the path, less the repairs that are in it', () => {
    const elements = [pair(), weld(0.1), segment(10_000), weld(0.2), pair()];
    const reserve = { splices: 0, repairs: 2, ageing: db(0) };
    const held = (model: Partial<LinkModel> = {}) => {
      const term = window({ elements, terms: { reserve }, model })?.terms.find(({ what }) =>
        what.startsWith('splices held'),
      );
      return term && [term.count, term.each / 1e6];
    };
    expect(held()).toEqual([4, 0.2]);
    const repair = (name: string) => ({
      name,
      fibres: [1, 2],
      on: when(500),
      path: [weld(0.1)],
      place: place(),
    });
    expect(held({ repairs: [repair('R-1')] })).toEqual([2, 0.2]);
    expect(held({ repairs: [repair('R-1'), repair('R-2'), repair('R-3')] })).toBeUndefined();
  });

  it('of fibres that take different ways is the worse at each end', () => {
    // 20 km more in fibre 2: 4.4 dB at most, 3.6 dB at least.
    const repairs = [
      { name: 'R-1', fibres: [2], on: when(500), path: [segment(20_000)], place: place() },
    ];
    const found = window({ model: { repairs } });
    expect([
      inDb(found?.margin),
      inDb(found?.leastLoss),
      inDb(found?.overloadMargin),
      inDb(found?.damageMargin),
    ]).toEqual([6.3, 1.8, -2.2, 3.8]);
    expect(found?.dispersion).toEqual({ bears: 800_000_000, trust: 'recalled', path: 540_000_000 });
    expect(found?.attenuator).toEqual({ least: exactDb(db(2.2)), most: exactDb(db(6.3)) });
    const dead = { repairs, dead: [{ fibre: 2, because: 'crushed' }] };
    expect(inDb(window({ model: dead })?.margin)).toBe(10.7);
  });

  it('is one of modulation amplitudes, too, where both ends have them', () => {
    const sends = transceiver('SENDS', {
      output: { min: dbm(-4), max: dbm(1), amplitude: dbm(-3) } as never,
    });
    const takes = (amplitude: number) =>
      transceiver('TAKES', {
        input: { min: dbm(-20), max: dbm(-3), amplitude: dbm(amplitude) } as never,
      });
    // −3 − 3.3 + 18 = 11.7 dB is less than the 12.7 dB of the average.
    expect(window({ modules: [sends, takes(-18)] })).toMatchObject({
      margin: exactDb(db(11.7)),
      amplitude: { launch: dbm(-3), input: dbm(-18), margin: exactDb(db(11.7)) },
    });
    expect(window({ modules: [sends, takes(-20)] })).toMatchObject({ margin: exactDb(db(12.7)) });
    expect(window({ modules: [far, takes(-18)] })).not.toHaveProperty('amplitude');
    expect(window({ modules: [sends, far] })).not.toHaveProperty('amplitude');
  });

  it('rests on a recalled figure where one of it does', () => {
    const recalled = (more: Partial<TransceiverType>) =>
      window({ modules: [transceiver('T', more)] })?.recalled;
    expect(recalled({})).toBe(false);
    expect(recalled({ output: { min: dbm(-4), max: dbm(1), trust: 'recalled' } as never })).toBe(
      true,
    );
    expect(recalled({ input: { min: dbm(-20), max: dbm(-3), trust: 'recalled' } as never })).toBe(
      true,
    );
    expect(recalled({ penalty: { loss: db(2), trust: 'recalled' } })).toBe(true);
  });

  it('names fibre that counts as nothing lost', () => {
    const silent: FibreType = {
      ...plant,
      name: 'SILENT',
      attenuation: [{ wavelength: nm(1550), max: ratePerKm(220_000) }],
    };
    expect(
      window({ elements: [pair(), segment(4000), segment(6000, silent), pair()] }),
    ).toMatchObject({
      uncounted: ['SILENT'],
      leastLoss: exactDb(db(0.72)),
    });
  });

  it('says what does not fit', () => {
    const misfits = (modules: readonly TransceiverType[], more: Asked = {}) =>
      window({ modules, ...more })?.mismatches;
    const other = transceiver('OTHER', { applications: ['LINE-A', 'LINE-B'] });
    expect(misfits([other])).toEqual(['OTHER is made for LINE-A, LINE-B']);
    expect(misfits([transceiver('OWN', { applications: ['SERVICE'] })])).toEqual([]);
    const short = transceiver('SHORT', { wavelength: { nominal: nm(1310) } });
    expect(misfits([short, far])).toEqual([
      'SHORT sends 1310 nm, and SERVICE is sent at 1550 nm A>B',
    ]);
    expect(misfits([transceiver('NEAR', { wavelength: { nominal: nm(1580) } }), far])).toEqual([]);
    const wide = transceiver('WIDE', {
      wavelength: { nominal: nm(1310), min: nm(1300), max: nm(1550) } as never,
    });
    expect(misfits([wide, far])).toEqual([]);
    const narrow = transceiver('NARROW', {
      wavelength: { nominal: nm(1310), min: nm(1300), max: nm(1549) } as never,
    });
    expect(misfits([narrow, far])?.length).toBe(1);
    const line = { model: { wavelength: nm(1551) } };
    expect(misfits([transceiver('GRID', { wavelength: { nominal: nm(1551) } })], line)).toEqual([]);
    expect(misfits([transceiver('GRID', { wavelength: { nominal: nm(1531) } })], line)).toEqual([
      'GRID sends 1531 nm, and KQ-1 has 1551 nm on its line',
    ]);
    const band = (min: number, max: number) =>
      misfits(
        [
          transceiver('BAND', {
            wavelength: { nominal: nm(1531), min: nm(min), max: nm(max) } as never,
          }),
        ],
        line,
      )?.length;
    expect([band(1551, 1560), band(1540, 1551), band(1540, 1550), band(1552, 1560)]).toEqual([
      0, 0, 1, 1,
    ]);
  });
});

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
    const near = of(
      multi(
        entry(1545, 'over-filled', 300),
        entry(1560, 'over-filled', 100),
        entry(1500, 'effective', 900),
      ),
    );
    expect(near?.bandwidth.map(({ launch, value }) => [launch, value])).toEqual([
      ['over-filled', 600_000],
    ]);
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

  it('of a length that is unknown on purpose says nothing', () => {
    expect(signal({ elements: [pair(), segment(0, plant, { deliberate: true }), pair()] })).toEqual(
      [],
    );
  });
});
