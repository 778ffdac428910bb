/**
 * Where the figures of a sum come from: a limits set, its own kinds and modes first;
 * the parts themselves, at a wavelength before at all; and received power against a
 * window or the launch it came from. Which figure counts follows from the help of each
 * word; numbers are ours.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import {
  meets,
  onLine,
  ownFigures,
  ownLoss,
  ownRate,
  setFigures,
  splitLoss,
} from '../../server/src/evaluate/figures.ts';
import type { Piece } from '../../server/src/evaluate/path.ts';
import type {
  Attenuation,
  FibreType,
  LimitsSet,
  Mode,
  PartLoss,
  ReadingCell,
  Requirement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  cell,
  connector,
  db,
  dbm,
  evaluate,
  evidence,
  fibre,
  limitsSet,
  link,
  mated,
  nm,
  place,
  settings,
  setup,
  splice,
  stretch,
  taken,
} from '../support/build.ts';

type Part = Extract<Piece, { kind: 'part' }>;
type Splice = Extract<Piece, { kind: 'splice' }>;
type Split = Extract<Piece, { kind: 'split' }>;

const declared = {
  place: place(),
  namePlace: place(),
  origin: 'plan' as const,
  basis: [],
  notes: [],
  shares: [],
  returnLoss: [],
};
const part = (loss: readonly PartLoss[], joins?: readonly [string, string]): Part => ({
  kind: 'part',
  name: 'PAD',
  type: { ...declared, kind: 'component', name: 'PAD', loss },
  ...(joins && { joins }),
  place: place(),
});
const weld: Splice = { kind: 'splice', name: 'WELD', type: splice, place: place() };
const split = (loss: readonly PartLoss[], out?: number): Split => ({
  kind: 'split',
  name: 'FOURTH',
  type: { ...declared, kind: 'splitter', name: 'FOURTH', inputs: 1, outputs: 4, loss },
  out,
  place: place(),
});
const each = (found: { readonly each: number } | undefined) =>
  found ? found.each / 1e6 : undefined;

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

describe('figures of the parts themselves', () => {
  const glass = (...attenuation: readonly Attenuation[]): FibreType => ({ ...fibre, attenuation });
  const at = (wavelength: number, more: Partial<Attenuation>): Attenuation => ({
    wavelength: nm(wavelength),
    ...more,
  });

  it('of fibre are at the wavelength itself, or for a plan at the nearest of its window', () => {
    const type = glass(
      at(1310, { max: ratePerKm(400_000) }),
      at(1300, { max: ratePerKm(500_000) }),
      at(1550, { min: ratePerKm(180_000) }),
    );
    const own = (wavelength: number, window = false) =>
      ownRate(type, nm(wavelength), 'max', window)?.each;
    expect([own(1310), own(1300), own(1307), own(1550)]).toEqual([
      400_000,
      500_000,
      undefined,
      undefined,
    ]);
    expect([own(1307, true), own(1301, true), own(1341, true), own(1340, true)]).toEqual([
      400_000,
      500_000,
      undefined,
      400_000,
    ]);
    expect(ownRate(type, nm(1550), 'min')).toEqual({
      each: 180_000,
      source: 'fibre GLASS at 1550 nm, least',
      trust: undefined,
      place: fibre.place,
    });
    expect(ownRate(undefined, nm(1310), 'max')).toBeUndefined();
  });

  it('of two lights at one wavelength judge more strictly', () => {
    const both = glass(
      at(850, { min: ratePerKm(2_000_000), max: ratePerKm(3_000_000), trust: 'read' }),
      at(850, { min: ratePerKm(1_900_000), max: ratePerKm(3_500_000), trust: 'recalled' }),
    );
    expect(ownRate(both, nm(850), 'max')).toMatchObject({ each: 3_500_000, trust: 'recalled' });
    expect(ownRate(both, nm(850), 'min')).toMatchObject({ each: 1_900_000, trust: 'recalled' });
  });

  it('of a part are of a wavelength before those of all', () => {
    const losses = [
      { max: db(1), typ: db(0.5) },
      { wavelength: nm(850), max: db(2), trust: 'recalled' as const },
    ];
    expect(ownLoss(connector, losses, nm(850), 'max')).toEqual({
      each: db(2),
      source: 'PAIR, greatest',
      trust: 'recalled',
      place: connector.place,
    });
    expect(each(ownLoss(connector, losses, nm(1300), 'max'))).toBe(1);
    expect(ownLoss(connector, losses, nm(850), 'typ')).toMatchObject({
      each: db(0.5),
      source: 'PAIR, typical',
    });
    expect(ownLoss(connector, losses, nm(850), 'min')).toBeUndefined();
    // A figure for one light says nothing of another.
    expect(
      ownLoss(connector, [{ wavelength: nm(1310), max: db(2) }], nm(850), 'max'),
    ).toBeUndefined();
    expect(ownLoss(undefined, losses, nm(850), 'max')).toBeUndefined();
    expect(ownLoss(connector, undefined, nm(850), 'max')).toBeUndefined();
  });

  it('of a splitter are of the output that light takes before those of all', () => {
    const losses = [{ max: db(7) }, { max: db(7.5), out: [2, 3] }];
    const of = (out?: number) => each(splitLoss(split(losses, out), nm(850), 'max'));
    expect([of(1), of(2), of(3), of()]).toEqual([7, 7.5, 7.5, undefined]);
    expect(splitLoss({ ...split(losses, 1), type: undefined }, nm(850), 'max')).toBeUndefined();
  });

  it('fall back on a set for what is greatest, and never for what is usual', () => {
    const sets = [
      limitsSet('BARE', 0.75, 3, { connector: [], fibre: [], splice: [] }),
      limitsSet('SET', 0.75, 3),
    ];
    const figures = (which: 'typ' | 'max') => ownFigures(sets, nm(850), 'multimode', which);
    const nobody = { ...connector, loss: [] };
    expect(figures('max').name).toBe('the parts');
    expect(each(figures('max').pair('PAIR', nobody, 'installed'))).toBe(0.75);
    expect(figures('typ').pair('PAIR', nobody, 'installed')).toBeUndefined();
    expect(figures('max').rate('GLASS', { ...fibre, attenuation: [] })?.source).toBe(
      'SET, fibre GLASS at 850 nm',
    );
    expect(figures('typ').rate('GLASS', { ...fibre, attenuation: [] })).toBeUndefined();
    expect(each(figures('max').splice({ ...weld, type: undefined }))).toBe(0.3);
    expect(each(figures('max').spliceAlone({ ...weld, type: undefined }))).toBe(0.3);
    expect(figures('max').part(part([]))).toBeUndefined();
    expect(each(figures('max').part(part([{ max: db(1) }])))).toBe(1);
    expect(each(figures('max').split(split([{ max: db(7) }], 1)))).toBe(7);
    expect(figures('max').step(fibre, fibre)).toBeUndefined();
  });

  it('of pairs with test cords are what a set grants, and as a rule no more than is usual', () => {
    const typical = (typ: number) => ({ ...connector, loss: [{ typ: db(typ), max: db(0.75) }] });
    const sets = [limitsSet('SET', 0.75, 3)];
    const asked = (which: 'typ' | 'max', typ: number) =>
      each(ownFigures(sets, nm(850), 'multimode', which).pair('PAIR', typical(typ), 'end'));
    // The set grants 0.45 dB.
    expect([asked('max', 0.3), asked('typ', 0.3), asked('typ', 0.5)]).toEqual([0.45, 0.3, 0.45]);
    expect(
      ownFigures([], nm(850), 'multimode', 'typ').pair('PAIR', typical(0.3), 'end'),
    ).toMatchObject({ each: db(0.3) });
    expect(
      ownFigures([], nm(850), 'multimode', 'max').pair('PAIR', typical(0.3), 'end'),
    ).toBeUndefined();
  });

  it('meet a name that is theirs or that they meet; a line has its light in its own window', () => {
    expect(meets(fibre, 'GLASS')).toBe(true);
    expect(meets({ ...fibre, meets: ['B'] }, 'B')).toBe(true);
    expect(meets(fibre, 'B')).toBe(false);
    expect(meets(undefined, 'GLASS')).toBe(false);
    expect(onLine({ wavelength: nm(1551) }, nm(1550))).toBe(nm(1551));
    expect(onLine({ wavelength: nm(1581) }, nm(1550))).toBe(nm(1550));
    expect(onLine({}, nm(1550))).toBe(nm(1550));
  });
});

describe('power that was received', () => {
  const using = (more: Partial<Setup> = {}, launched = false): Setup =>
    setup({ reference: undefined, ...more }, launched ? [taken(480, -3)] : []);
  const power = (level: number): ReadingCell => ({
    ...cell(1, 1, 'A>B', 500),
    quantity: 'power',
    loss: undefined,
    power: dbm(level),
  });
  const window = (min?: number, max?: number): Requirement => ({
    kind: 'power',
    ...(min !== undefined && { min: dbm(min) }),
    ...(max !== undefined && { max: dbm(max) }),
    place: place(),
  });
  const judged = (
    reading: ReadingCell,
    terms: Partial<Terms>,
    of = using(),
    by: Parameters<typeof settings>[0] = {},
  ) => {
    const whole = link(
      [mated(), stretch(100), mated()],
      { directions: { wanted: ['A>B'], average: false }, ...terms },
      1,
    );
    const result = evaluate(whole, evidence({ readings: [reading] }), of, settings(by));
    const { verdict, because, reason, limit, margin, loss } = result.readings[0] ?? {};
    return {
      verdict,
      because,
      reason,
      limit: limit?.name,
      margin: margin === undefined ? undefined : Number(margin) / 1e15,
      loss,
      doubts: result.doubts,
      terms: limit?.terms,
    };
  };

  it('is held to both sides of a window, and the worse counts', () => {
    const asked = (level: number) => {
      const { verdict, because, limit, margin } = judged(power(level), {
        require: [window(-20, -10)],
      });
      return [verdict, because, limit, margin];
    };
    expect(asked(-13)).toEqual(['pass', '', 'power at most −10.00 dBm', 3]);
    expect(asked(-18)).toEqual(['pass', '', 'power at least −20.00 dBm', 2]);
    expect(asked(-19.9)).toEqual(['marginal-pass', '', 'power at least −20.00 dBm', 0.1]);
    expect(asked(-10.1)).toEqual(['marginal-pass', '', 'power at most −10.00 dBm', 0.1]);
    expect(asked(-20.1)).toEqual([
      'marginal-fail',
      '−20.10 dBm is not power at least −20.00 dBm',
      'power at least −20.00 dBm',
      -0.1,
    ]);
    expect(asked(-9)).toEqual([
      'fail',
      '−9.00 dBm is not power at most −10.00 dBm',
      'power at most −10.00 dBm',
      -1,
    ]);
    const required = window(-20);
    expect(judged(power(-18), { require: [required] }).terms).toEqual([
      {
        what: 'received power at least',
        role: 'part',
        count: 1,
        each: dbm(-20),
        total: exactDb(db(-20)),
        source: 'required by the contract',
        place: required.place,
      },
    ]);
  });

  it('is held to every window there is', () => {
    const two = { require: [window(-20), window(-15)] };
    expect(judged(power(-16), two)).toMatchObject({
      verdict: 'fail',
      limit: 'power at least −15.00 dBm',
      margin: -1,
    });
    expect(judged(power(-16), { require: [...two.require].reverse() })).toMatchObject({
      verdict: 'fail',
      margin: -1,
    });
    expect(judged(power(-14), two)).toMatchObject({ verdict: 'pass', margin: 1 });
  });

  it('is judged by the launch it came from, for what is asked of light', () => {
    const loss: Requirement = { kind: 'loss', loss: db(2), sufficient: false, place: place() };
    expect(judged(power(-5.5), { require: [loss] }, using({}, true))).toMatchObject({
      verdict: 'fail',
      loss: db(2.5),
      limit: 'required loss 2 dB',
      margin: -0.5,
    });
    expect(judged(power(-4), { require: [loss] }, using({}, true))).toMatchObject({
      verdict: 'pass',
      loss: db(1),
      margin: 1,
    });
    // Components are not what equipment sees; a service is.
    const silent =
      'received power is judged by a power window, or by the launch it came from, and neither is given';
    expect(judged(power(-4), {}, using({}, true))).toMatchObject({
      verdict: 'not-judged',
      because: silent,
      reason: 'no-limit',
    });
    const carries = [carried(application([{ reach: 400, loss: 2.9 }]))];
    expect(judged(power(-5), { carries }, using({}, true))).toMatchObject({
      verdict: 'pass',
      loss: db(2),
    });
    expect(judged(power(-4), { require: [loss] })).toMatchObject({
      verdict: 'not-judged',
      because: silent,
    });
    const both = { require: [loss, window(-5)] };
    expect(judged(power(-5.5), both, using({}, true))).toMatchObject({
      verdict: 'fail',
      limit: 'power at least −5.00 dBm',
    });
    expect(judged(power(-4.9), both, using({}, true))).toMatchObject({
      verdict: 'marginal-pass',
      limit: 'power at least −5.00 dBm',
      margin: 0.1,
    });
    expect(judged(power(-4.9), both, using({}, true), { uncertainty: [] })).toMatchObject({
      verdict: 'pass',
      margin: 0.1,
    });
    const stale = setup({ reference: undefined }, [
      taken(480, -3),
      { kind: 'disturbed', at: taken(490, 0).at, place: place() },
    ]);
    expect(judged(power(-5.5), { require: [loss] }, stale)).toMatchObject({
      verdict: 'not-judged',
    });
  });

  it('that is no light fails where the meter would have seen what is asked', () => {
    const dark: ReadingCell = { ...power(0), power: undefined, typed: 'dark' };
    const floor = (value: number | undefined) =>
      using({
        meter: {
          text: 'M',
          wavelengths: [],
          ...(value !== undefined && { floor: dbm(value) }),
          place: place(),
        },
      });
    expect(judged(dark, { require: [window(-20, -10)] }, floor(-30))).toMatchObject({
      verdict: 'fail',
      because: 'no light: less than −30.00 dBm arrives',
      reason: 'dark',
      limit: 'power at least −20.00 dBm',
    });
    const told = judged(dark, { require: [window(-20, -10)] }, floor(-30)).doubts.find(
      ({ name }) => name === 'over-limit',
    );
    expect(told?.details).toMatchObject({ dark: 1, power: -30, limit: -20 });
    expect(judged(dark, { require: [window(-20)] }, floor(-20))).toMatchObject({ verdict: 'fail' });
    expect(judged(dark, { require: [window(-20)] }, floor(-19.999999))).toMatchObject({
      verdict: 'not-judged',
      because: 'no light, but the set-up sees no less than −20.00 dBm',
      reason: 'dark-within-limit',
      limit: 'power at least −20.00 dBm',
    });
    // Too much light is nothing that darkness could be.
    expect(judged(dark, { require: [window(undefined, -10)] }, floor(-30))).toMatchObject({
      verdict: 'not-judged',
      reason: 'no-limit',
    });
    expect(judged(dark, { require: [window(-20)] }, floor(undefined))).toMatchObject({
      verdict: 'not-judged',
      because:
        'no light, and the meter of set-up ONE has no floor: how little arrives is not known',
      reason: 'meter-floor-missing',
    });
  });

  it('a loss without a method is not judged, and said once', () => {
    const of = using();
    const reading = cell(1, 1, 'A>B', 500);
    const found = judged(reading, {}, of);
    expect(found).toMatchObject({
      verdict: 'not-judged',
      because: 'set-up ONE does not say how many cords were referenced',
      reason: 'method-undeclared',
    });
    expect(found.doubts).toEqual([
      {
        name: 'method-undeclared',
        place: reading.place,
        related: [{ place: of.place, message: 'set-up ONE' }],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'A>B',
          setup: 'ONE',
          because: 'set-up ONE does not say how many cords were referenced',
          readings: 1,
          fibres: '1',
        },
      },
    ]);
  });
});
