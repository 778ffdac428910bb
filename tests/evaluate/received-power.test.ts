/**
 * Received power, judged against a window or by the launch it came from, and a loss
 * whose method is not said. What counts follows from the help of each word; numbers
 * are ours.
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import type { ReadingCell, Requirement, Setup, Terms } from '../../server/src/model/types.ts';
import {
  application,
  carried,
  cell,
  db,
  dbm,
  evaluate,
  evidence,
  link,
  mated,
  place,
  settings,
  setup,
  stretch,
  taken,
} from '../support/build.ts';

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
