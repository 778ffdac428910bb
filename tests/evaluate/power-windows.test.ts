/**
 * Windows of power that transceivers leave, whole and worked out by hand: least launch
 * − greatest loss − penalty − reserves − least input, and greatest input − (greatest
 * launch − least loss) (ITU-T G.957 clause 8, G.Sup39 clause 9).
 */
import { describe, expect, it } from 'vitest';
import { exactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  FibreType,
  LinkModel,
  PathElement,
  TransceiverType,
} from '../../server/src/model/types.ts';
import { db, dbm, nm, place, when } from '../support/build.ts';
import {
  type Asked,
  far,
  judged,
  pair,
  path,
  plant,
  segment,
  transceiver,
  weld,
} from './lit-link.ts';

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

  it('is at the light of its direction, of a service that sends another each way', () => {
    const two: FibreType = {
      ...plant,
      attenuation: [
        ...plant.attenuation,
        { wavelength: nm(1310), min: ratePerKm(300_000), max: ratePerKm(400_000) },
      ],
    };
    const elements = [pair(), segment(10_000, two), pair()];
    const type = {
      wavelengths: [
        { wavelength: nm(1310), direction: 'B>A' as const },
        { wavelength: nm(1550), direction: 'A>B' as const },
      ],
    };
    const silent = transceiver('SILENT', { wavelength: undefined });
    const shown = (modules: readonly TransceiverType[], more?: Asked['more']) =>
      judged({ modules, elements, type, more }).power.map(
        ({ direction, wavelength, greatestLoss, mismatches }) => [
          direction,
          wavelength / 1000,
          inDb(greatestLoss),
          mismatches,
        ],
      );
    expect(shown([silent])).toEqual([
      ['A>B', 1550, 3.2, []],
      ['B>A', 1310, 5, []],
    ]);
    // Each end sends what it says it sends, and that is held against what is sent that way.
    const [low, high] = [1310, 1550].map((at) =>
      transceiver(`AT-${at}`, { wavelength: { nominal: nm(at) } }),
    );
    expect(shown([high!, low!])).toEqual([
      ['A>B', 1550, 3.2, []],
      ['B>A', 1310, 5, []],
    ]);
    expect(shown([low!, high!])).toEqual([
      ['A>B', 1310, 5, ['AT-1310 sends 1310 nm, and SERVICE is sent at 1550 nm A>B']],
      ['B>A', 1550, 3.2, ['AT-1550 sends 1550 nm, and SERVICE is sent at 1310 nm B>A']],
    ]);
    // Of a service that nobody declares both ways are asked, at what the transceivers send.
    expect(shown([low!, high!], { application: undefined }).map(([, at]) => at)).toEqual([
      1310, 1550,
    ]);
    const [out, back] = judged({
      modules: [silent, far],
      elements,
      more: { application: undefined },
    }).power;
    expect(out?.because).toBe('SILENT does not say all that a window needs');
    expect(back?.because).toBeUndefined();
  });

  it('takes parts at the light of the line, and fibre at its own', () => {
    const part = {
      kind: 'component',
      name: 'MUX',
      type: {
        kind: 'component',
        name: 'MUX',
        loss: [
          { max: db(9) },
          { wavelength: nm(1551), min: db(1), max: db(2) },
          { wavelength: nm(1550), min: db(3), max: db(4) },
        ],
        shares: [],
        returnLoss: [],
      },
      place: place(),
    } as unknown as PathElement;
    const elements = [pair(), segment(10_000), part, pair()];
    const grid = transceiver('GRID', { wavelength: { nominal: nm(1550) } });
    const at = (wavelength?: number) => {
      const model = wavelength === undefined ? {} : { wavelength: nm(wavelength) };
      const found = window({ modules: [grid], elements, model });
      return [inDb(found?.greatestLoss), inDb(found?.leastLoss)];
    };
    // 1.0 dB of pairs, 2.2 and 1.8 dB of fibre, and the part.
    expect(at()).toEqual([7.2, 4.8]);
    expect(at(1551)).toEqual([5.2, 2.8]);
    // A line of another window is none of this light.
    expect(at(1310)).toEqual([7.2, 4.8]);
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
    const held = (model: Partial<LinkModel> = {}, splices = 0) => {
      const terms = { reserve: { ...reserve, splices } };
      const term = window({ elements, terms, model })?.terms.find(({ what }) =>
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
    const three = [repair('R-1'), repair('R-2'), repair('R-3')];
    expect(held({ repairs: three })).toBeUndefined();
    // Repairs beyond those that were reserved take none of the other splices.
    expect(held({ repairs: three }, 1)).toEqual([1, 0.2]);
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
    // With nothing too bright at either end there is nothing to put in.
    const dim = transceiver('DIM', { input: { min: dbm(-20), max: dbm(-0.8) } as never });
    const fits = window({ modules: [dim], model: { repairs } });
    expect([fits?.overloadMargin, fits?.attenuator]).toEqual([0n, undefined]);
    expect(found?.recalled).toBe(false);
    const old: FibreType = {
      ...plant,
      attenuation: plant.attenuation.map((rate) => ({ ...rate, trust: 'recalled' })),
    };
    for (const fibres of [[1], [2]]) {
      const path = [segment(20_000, old)];
      const aged = { repairs: [{ name: 'R-1', fibres, on: when(500), path, place: place() }] };
      expect(window({ model: aged })?.recalled).toBe(true);
    }
    const first = { repairs: repairs.map((one) => ({ ...one, fibres: [1] })) };
    const turned = window({ model: first });
    expect([
      turned?.margin,
      turned?.leastLoss,
      turned?.overloadMargin,
      turned?.damageMargin,
    ]).toEqual([found?.margin, found?.leastLoss, found?.overloadMargin, found?.damageMargin]);
    const dead = { repairs, dead: [{ fibre: 2, because: 'crushed' }] };
    expect(inDb(window({ model: dead })?.margin)).toBe(10.7);
  });

  it('knows the dispersion of its ways where all state it, as well as the worst of them is known', () => {
    const states = (...dispersion: FibreType['dispersion']): FibreType => ({
      ...plant,
      dispersion,
    });
    const greatest = (trust: 'read' | 'recalled') => ({
      ...plant.dispersion[0]!,
      trust,
    });
    const read = states(greatest('read'));
    const ways = (fibres: readonly number[], put: FibreType) => {
      const path = [segment(1000, put)];
      const repairs = [{ name: 'R-1', fibres, on: when(500), path, place: place() }];
      const elements = [pair(), segment(10_000, read), pair()];
      const { dispersion } = window({ elements, model: { repairs } }) ?? {};
      return [dispersion?.path, dispersion?.trust];
    };
    for (const fibres of [[1], [2]]) {
      expect(ways(fibres, read)).toEqual([198_000_000, 'read']);
      expect(ways(fibres, states(greatest('recalled')))).toEqual([198_000_000, 'recalled']);
      expect(ways(fibres, states())[0]).toBeUndefined();
    }
  });

  it('has no margin where one of the ways is not known, whichever', () => {
    for (const fibres of [[1], [2]]) {
      const path = [segment(undefined)];
      const repairs = [{ name: 'R-1', fibres, on: when(500), path, place: place() }];
      const found = window({ model: { repairs } });
      expect(found).toMatchObject({
        because: 'a length of PLANT is missing',
        leastLoss: exactDb(db(1.8)),
      });
      expect([found?.margin, found?.attenuator]).toEqual([undefined, undefined]);
    }
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
    // What is stated counts, whatever average and extinction would make: −4 dBm and 6 dB are −2.77 dBm.
    const ratio = { extinction: db(6) } as Partial<TransceiverType>;
    const launch = (output: object) =>
      window({
        modules: [
          transceiver('S', { ...ratio, output: { min: dbm(-4), max: dbm(1), ...output } as never }),
          takes(-18),
        ],
      })?.amplitude?.launch;
    expect(launch({ amplitude: dbm(-3) })).toBe(dbm(-3));
    expect((launch({}) ?? 0) / 1e6).toBeCloseTo(
      -4 + 10 * Math.log10((2 * (10 ** 0.6 - 1)) / (10 ** 0.6 + 1)),
      5,
    );
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
    // Where ways differ, of the one that may lose least: 1.8 dB, and 1.98 dB with a piece put in.
    const put = (fibres: readonly number[]) => [
      {
        name: 'R-1',
        fibres,
        on: when(500),
        path: [segment(1000), segment(5000, silent)],
        place: place(),
      },
    ];
    for (const fibres of [[1], [2]]) {
      expect(window({ model: { repairs: put(fibres) } })).toMatchObject({
        uncounted: [],
        leastLoss: exactDb(db(1.8)),
      });
    }
    expect(window({ model: { repairs: put([1, 2]) } })?.uncounted).toEqual(['SILENT']);
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
    const above = transceiver('ABOVE', {
      wavelength: { nominal: nm(1550), min: nm(1540), max: nm(1560) } as never,
    });
    const lower = { type: { wavelengths: [{ wavelength: nm(1310) }] } };
    expect(misfits([above], lower)).toEqual([
      'ABOVE sends 1550 nm, and SERVICE is sent at 1310 nm A>B',
    ]);
    // One end of a range alone says of no other window that it is sent.
    for (const end of [{ min: nm(1300) }, { max: nm(1600) }]) {
      const open = transceiver('OPEN', { wavelength: { nominal: nm(1550), ...end } as never });
      expect(misfits([open], lower)?.length).toBe(1);
    }
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
