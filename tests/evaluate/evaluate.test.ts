/** Evaluation asked directly, for what whole plans seldom show. */
import { describe, expect, it } from 'vitest';
import { exactDb, printExactDb } from '../../grammar/src/quantity/index.ts';
import { type LinkResult, suspicionsIn } from '../../server/src/evaluate/index.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import {
  application,
  betweenPairs,
  carried,
  cell,
  checked,
  db,
  dbm,
  declared,
  disturbed,
  evaluate,
  evidence,
  limitsSet,
  link,
  mated,
  metres,
  nm,
  oneWay,
  place,
  settings,
  setup,
  stretch,
  taken,
  when,
} from '../support/build.ts';

const path = () => betweenPairs(100);
const names = (result: LinkResult) => result.doubts.map((doubt) => doubt.name);
const found = (result: LinkResult, name: string) =>
  result.doubts.find((doubt) => doubt.name === name)?.details;

describe('the expected set', () => {
  it('holds spare fibres and leaves dead ones out', () => {
    const model = { ...link(path()), spare: [3], dead: [{ fibre: 4, because: 'crushed' }] };
    const result = evaluate(model, evidence());
    expect(result.expected).toBe(6);
    expect(result.fibres[2]?.verdict).toBe('untested');
    expect(result.fibres[3]).toMatchObject({ verdict: 'not-judged', current: [] });
  });

  it('wants a wavelength that is sent one way in that way alone', () => {
    const service = {
      ...application([{ reach: 400, loss: 2.9 }]),
      wavelengths: [{ wavelength: nm(850), direction: 'B>A' as const }],
    };
    const result = evaluate(link(path(), { carries: [carried(service)] }, 1), evidence());
    expect(result.readings.map((one) => one.direction)).toEqual(['B>A']);
  });

  it('says why something was not read', () => {
    const absences = [
      {
        object: 'KQ-1',
        fibre: 1,
        wavelength: nm(850),
        direction: 'A>B' as const,
        remark: 'door locked',
        place: place(),
      },
    ];
    const result = evaluate(link(path(), oneWay, 1), evidence({ absences }));
    expect(result.readings[0]).toMatchObject({
      verdict: 'untested',
      because: 'not read: door locked',
      reason: 'not-accessible',
    });
    const silent = absences.map((one) => ({ ...one, remark: undefined }));
    const [bare] = evaluate(link(path(), oneWay, 1), evidence({ absences: silent })).readings;
    expect([bare?.because, bare?.reason]).toEqual(['', undefined]);
  });

  it('keeps what was read outside it and judges the object without it', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(1, 9, 'A>B', 500, 1300)];
    const result = evaluate(
      link(path(), oneWay, 1),
      evidence({ readings }),
      setup({}, [taken(480, -20), taken(480, -20, 1300)]),
    );
    expect(result.verdict).toBe('pass');
    expect(result.readings.find((one) => !one.expectedSet)?.verdict).toBe('fail');
  });

  it('of a channel may be empty, and then nothing is left to accept', () => {
    const channel = { ...link(path(), { measure: [] }, 2), kind: 'channel' as const };
    expect(evaluate(channel, evidence())).toMatchObject({
      verdict: 'not-judged',
      expected: 0,
      accepted: true,
    });
    expect(evaluate(link(path(), { measure: [] }, 2), evidence()).accepted).toBe(false);
  });

  it('is judged whole however few readings are handed back', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 9, 'A>B', 501)];
    const all = evaluate(link(path(), oneWay, 2), evidence({ readings }));
    const few = evaluate(link(path(), oneWay, 2), evidence({ readings }), setup(), settings(), {
      readingLimit: 1,
    });
    expect(few.readings.length).toBe(1);
    expect(few).toMatchObject({ verdict: all.verdict, counts: all.counts, present: all.present });
  });
});

describe('the reference in force', () => {
  const judged = (events: ReturnType<typeof taken>[], minute = 500, by = settings()) =>
    evaluate(
      link(path(), oneWay, 1),
      evidence({ readings: [cell(1, 1, 'A>B', minute)] }),
      setup({}, events),
      by,
    ).readings[0];

  it('is one with a time of day, before the reading', () => {
    expect(judged([taken(501, -20)])?.reason).toBe('reference-missing');
    const dated = { ...taken(480, -20), at: { ...when(0), from: 0, to: 1439 } };
    expect(judged([dated])?.reason).toBe('reference-missing');
    expect(judged([taken(480, -20, 1300)])?.reason).toBe('reference-missing');
  });

  it('is compared with each check, so that drift cannot creep', () => {
    const creeping = [
      taken(480, -20),
      checked(490, -20.09),
      checked(495, -20.18),
      checked(520, -20.05),
    ];
    expect(judged(creeping)?.reason).toBe('reference-drift');
  });

  it('stands at exactly its tolerance', () => {
    expect(judged([taken(480, -20), checked(520, -20.1)])?.verdict).toBe('pass');
    expect(judged([taken(480, -20), checked(520, -20.100001)])?.verdict).toBe('invalid');
  });

  it('is not disturbed by what happened before it or after the reading', () => {
    expect(judged([disturbed(470), taken(480, -20)])?.verdict).toBe('pass');
    expect(judged([taken(480, -20), disturbed(510)])?.verdict).toBe('pass');
  });

  it('a check after a disturbance closes nothing', () => {
    const closing = settings({
      drift: { loss: db(0.1), extended: false, closing: true, widening: false },
    });
    expect(judged([taken(480, -20), checked(520, -20)], 500, closing)?.verdict).toBe('pass');
    expect(judged([taken(480, -20), disturbed(510), checked(520, -20)], 500, closing)?.reason).toBe(
      'closing-check-missing',
    );
  });

  it('may widen the uncertainty by a drift within tolerance', () => {
    const widening = settings({
      drift: { loss: db(0.2), extended: false, closing: false, widening: true },
    });
    expect(judged([taken(480, -20), checked(520, -20.15)], 500, widening)?.uncertainty).toBe(
      229_129,
    );
  });

  it('a row across two references takes the one by which more was lost', () => {
    const reading = {
      ...cell(1, 1, 'A>B', 500),
      quantity: 'power' as const,
      loss: undefined,
      power: dbm(-21),
      at: { ...when(500), to: 600 },
    };
    const using = setup({}, [taken(480, -20), taken(550, -19.9)]);
    const result = evaluate(link(path(), oneWay, 1), evidence({ readings: [reading] }), using);
    expect(result.readings[0]?.loss).toBe(1_100_000);
  });
});

describe('decisions', () => {
  const word = (loss: number, more: Parameters<typeof settings>[0]) =>
    evaluate(
      link(path(), oneWay, 1),
      evidence({ readings: [cell(1, loss, 'A>B', 500)] }),
      setup(),
      settings(more),
    ).readings[0];

  it('are made on unrounded values, and on a rounded limit only where the plan rounds it first', () => {
    // 3.0·0.1 + 2·0.75 = 1.8, rounded half up to 0.5: 2.0
    const rounded = word(1.9, {
      decision: { rule: 'simple', accepting: 'none', rounded: db(0.5) },
    });
    expect(rounded?.verdict).toBe('pass');
    expect(rounded?.limit?.terms.at(-1)).toMatchObject({
      role: 'rounding',
      total: exactDb(db(0.2)),
    });
    expect(word(1.9, { decision: { rule: 'simple', accepting: 'none' } })?.verdict).toBe('fail');
  });

  it('take the uncertainty that fits best', () => {
    const uncertainty = [
      { loss: db(0.3), place: place() },
      { loss: db(0.1), wavelength: nm(850), place: place() },
      { loss: db(0.2), method: 'two-cord', place: place() },
      { loss: db(0.05), for: 'single-mode', place: place() },
    ];
    expect(word(1, { uncertainty })?.uncertainty).toBe(db(0.1));
    expect(word(1, { uncertainty: uncertainty.slice(2) })?.uncertainty).toBe(0);
  });

  it('accept a marginal pass as the plan says', () => {
    const accepted = (accepting: 'none' | 'marginal-pass') =>
      evaluate(
        link(path(), oneWay, 1),
        evidence({ readings: [cell(1, 1.75, 'A>B', 500)] }),
        setup(),
        settings({ decision: { rule: 'flagged', accepting } }),
      );
    expect(accepted('none')).toMatchObject({ verdict: 'marginal-pass', accepted: false });
    expect(accepted('marginal-pass')).toMatchObject({ verdict: 'marginal-pass', accepted: true });
  });
});

describe('limits', () => {
  it('on a tie the contract governs before the application, and that before the components', () => {
    const required = { kind: 'loss' as const, loss: db(1.8), sufficient: false, place: place() };
    const service = application([{ reach: 400, loss: 1.8 }]);
    const governing = (terms: Parameters<typeof link>[1]) =>
      evaluate(link(path(), terms), evidence()).wavelengths[0]?.governing?.kind;
    expect(governing({})).toBe('components');
    expect(governing({ carries: [carried(service)] })).toBe('application');
    expect(governing({ carries: [carried(service)], require: [required] })).toBe('contract');
  });

  it('are not built, and say why, without a rate, a policy or a length', () => {
    const because = (terms: Parameters<typeof link>[1], elements: PathElement[] = path()) =>
      evaluate(link(elements, terms), evidence()).wavelengths[0]?.limits[0]?.because;
    expect(because({ measure: [nm(953)] })).toContain('no figure for fibre GLASS at 953 nm');
    expect(because({ limits: [limitsSet('BARE', 0.75, 3, { policy: undefined })] })).toContain(
      'no policy',
    );
    const unmeasured: PathElement = { ...stretch(1), length: undefined } as PathElement;
    expect(because({}, [mated(), unmeasured, mated()])).toContain('length of GLASS is missing');
  });

  it('take a part’s own greatest figure where the set does not name it, and the set’s where it does', () => {
    const part = (more: Parameters<typeof limitsSet>[3]): string | undefined => {
      const filter: PathElement = {
        kind: 'component',
        name: 'FILTER',
        type: {
          ...declared('FILTER'),
          kind: 'component',
          loss: [{ max: db(1.2) }],
          shares: [],
          returnLoss: [],
        },
        place: place(),
      };
      const result = evaluate(
        link([mated(), filter, stretch(100), mated()], {
          limits: [limitsSet('SET', 0.75, 3, more)],
        }),
        evidence(),
      );
      const value = result.wavelengths[0]?.governing?.value;
      return value === undefined ? undefined : printExactDb(value);
    };
    expect(part({})).toBe('3');
    expect(part({ part: [{ part: 'FILTER', loss: db(0.9), place: place() }] })).toBe('2.7');
    expect(part({ part: [{ part: 'any', loss: db(1), place: place() }] })).toBe('2.8');
  });

  it('count the fibre of a glass test cord from a hundredth of a decibel on', () => {
    const value = (length: number) => {
      const using = setup();
      const cords = using.cords.map((cord) => ({ ...cord, length: metres(length) }));
      const reading = evaluate(
        link(path(), oneWay, 1),
        evidence({ readings: [cell(1, 1, 'A>B', 500)] }),
        { ...using, cords },
      ).readings[0];
      return reading?.limit?.value;
    };
    expect(value(3)).toBe(exactDb(db(1.8)));
    expect(value(4)).toBe(exactDb(db(1.812)));
  });

  it('count one end where the far plug goes into the meter', () => {
    const using = setup({ direct: true });
    const ends: PathElement[] = [
      mated(),
      stretch(100),
      { kind: 'plug', name: 'PAIR', place: place() },
    ];
    const reading = evaluate(
      link(ends, oneWay, 1),
      evidence({ readings: [cell(1, 0.9, 'A>B', 500)] }),
      using,
    ).readings[0];
    expect(reading?.limit?.value).toBe(exactDb(db(1.05)));
  });
});

describe('patterns', () => {
  const table = (losses: readonly (readonly [number, number])[]) =>
    evidence({
      readings: losses.flatMap(([a, b], index) => [
        cell(index + 1, a, 'A>B', 500 + index),
        cell(index + 1, b, 'B>A', 500 + index),
      ]),
    });

  it('directions copied on more than five fibres are named, once', () => {
    const same = table([1, 1.1, 1.2, 1.15, 1.05, 1.02].map((loss) => [loss, loss] as const));
    const result = evaluate(link(path(), {}, 6), same);
    expect(found(result, 'direction-fake')).toMatchObject({ fibres: '1..6', readings: 6 });
    const one = table(
      [1, 1.1, 1.2, 1.15, 1.05, 1.02].map(
        (loss, index) => [loss, index === 3 ? loss + 0.01 : loss] as const,
      ),
    );
    expect(names(evaluate(link(path(), {}, 6), one))).not.toContain('direction-fake');
  });

  it('a pass far above its mates is named', () => {
    const losses = [0.6, 0.62, 0.58, 0.61, 0.6, 0.63, 0.59, 1.2];
    const readings = losses.map((loss, index) => cell(index + 1, loss, 'A>B', 500));
    const result = evaluate(link(path(), oneWay, 8), evidence({ readings }));
    expect(found(result, 'pass-but-outlier')).toMatchObject({
      fibre: 8,
      loss: 1.2,
      median: 0.605,
      mates: 8,
    });
    expect(result.accepted).toBe(true);
  });

  it('a batch is held to its mean and its share, which no single reading is', () => {
    const readings = [1, 1.2, 1.4].map((loss, index) => cell(index + 1, loss, 'A>B', 500));
    const ask = (loss: number, statistic: 'mean' | number) =>
      evaluate(
        link(
          path(),
          {
            ...oneWay,
            require: [
              {
                kind: 'loss',
                loss: db(loss),
                statistic: statistic as 'mean',
                sufficient: false,
                place: place(),
              },
            ],
          },
          3,
        ),
        evidence({ readings }),
      );
    expect(names(ask(1.2, 'mean'))).not.toContain('batch-over-limit');
    expect(found(ask(1.19, 'mean'), 'batch-over-limit')).toMatchObject({ mean: 1.2, limit: 1.19 });
    expect(names(ask(1.2, 600_000))).not.toContain('batch-over-limit');
    expect(found(ask(1.2, 950_000), 'batch-over-limit')).toMatchObject({ within: 2, readings: 3 });
    expect(ask(1.19, 'mean').verdict).toBe('pass');
  });

  it('an instrument past its due date on the day is named', () => {
    const due = { ...when(0), from: -1440, to: -1, text: 'yesterday' };
    const using = setup({
      meter: { text: 'M-5', wavelengths: [], floor: dbm(-60), due, place: place() },
    });
    const result = evaluate(
      link(path(), oneWay, 1),
      evidence({ readings: [cell(1, 1, 'A>B', 500)] }),
      using,
    );
    expect(found(result, 'calibration-expired')).toMatchObject({
      instrument: 'M-5',
      due: 'yesterday',
    });
  });
});

describe('an array joint', () => {
  it('is one joint: work on one of its fibres ages all of them, and no others', () => {
    const array = (): PathElement => {
      const pair = mated();
      return pair.kind === 'connector' && pair.type
        ? { ...pair, type: { ...pair.type, positions: 4 } }
        : pair;
    };
    const readings = [1, 2, 3, 4, 5].map((number) => cell(number, 1, 'A>B', 500));
    const work = [{ object: 'KQ-1', done: 'cleaned', on: when(600), fibres: [2], place: place() }];
    const result = evaluate(
      link([array(), stretch(100), array()], oneWay, 8),
      evidence({ readings, work }),
    );
    expect(result.fibres.slice(0, 5).map((one) => one.verdict)).toEqual([
      'stale',
      'stale',
      'stale',
      'stale',
      'pass',
    ]);
  });
});

describe('an impossible reading in another link', () => {
  it('holds what was taken with the same set-up', () => {
    const bad = evaluate(
      link(path(), oneWay, 1),
      evidence({ readings: [cell(1, -0.2, 'A>B', 505)] }),
    );
    const [suspicion] = suspicionsIn(bad.readings);
    expect(suspicion).toMatchObject({ setup: 'ONE', wavelength: nm(850) });
    const other = (events: ReturnType<typeof taken>[]) =>
      evaluate(
        link(path(), oneWay, 1),
        evidence({ readings: [cell(1, 1, 'A>B', 500)] }),
        setup({}, events),
        settings(),
        {
          suspected: () => (suspicion ? [suspicion] : []),
        },
      ).readings[0];
    expect(other([taken(480, -20)])?.reason).toBe('reference-suspect');
    expect(other([taken(480, -20), checked(520, -20)])?.verdict).toBe('pass');
  });
});
