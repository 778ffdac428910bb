/**
 * What a link is told of its readings, its design and its evidence, whole: each
 * number worked out by hand. A path of two pairs of 0.75 dB and 100 m of 3.0 dB/km
 * (TIA-568.3-E) is held to 1.8 dB; an uncertainty of 0.15 dB makes readings marginal.
 */
import { describe, expect, it } from 'vitest';
import {
  exactDb,
  type PartsPerMillion,
  partsPerMillion,
} from '../../grammar/src/quantity/index.ts';
import { numbersInWords } from '../../server/src/evaluate/doubts.ts';
import type {
  ConnectorType,
  Evidence,
  LinkModel,
  PathElement,
  PlanSettings,
  ReadingCell,
  SeenCell,
  Setup,
  Terms,
  Way,
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
  metres,
  nm,
  place,
  settings,
  setup,
  stretch,
  taken,
  welded,
  when,
} from '../support/build.ts';

const segment = (length: number) => stretch(length) as Extract<PathElement, { kind: 'segment' }>;
const path = (length = 100): PathElement[] => [mated(), stretch(length), mated()];
const forward = { directions: { wanted: ['A>B' as const], average: false } };

interface Asked {
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly using?: Setup;
  readonly by?: Partial<PlanSettings>;
  readonly also?: Partial<Evidence>;
  readonly fibres?: number;
  readonly more?: Parameters<typeof evaluate>[4];
}

function judged(readings: readonly ReadingCell[], asked: Asked = {}) {
  const { elements = path(), terms, model, using, by, also, more } = asked;
  const fibres = asked.fibres ?? Math.max(1, ...readings.map((one) => one.fibre));
  const whole = { ...link(elements, { ...forward, ...terms }, fibres), ...model };
  return evaluate(
    whole,
    evidence({ readings, ...also }),
    using ?? setup({}, [taken(480, -20), taken(480, -20, 1300)]),
    settings(by),
    more,
  );
}
const told = (name: string, ...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.filter((one) => one.name === name);
const names = (...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.map((one) => one.name);
const key = { fibre: 1, wavelength: 850, direction: 'A>B' };
const judgedBy = {
  limit: 1.8,
  limitName: 'SET',
  limitKind: 'components',
  uncertainty: 0.15,
  attempt: 1,
};

it('numbers in words are sorted, each once, and drawn together', () => {
  expect(numbersInWords([3, 1, 2, 7, 1])).toBe('1..3, 7');
  expect(numbersInWords([2, 1])).toBe('1..2');
  expect(numbersInWords([5])).toBe('5');
  expect(numbersInWords([1, 3, 5])).toBe('1, 3, 5');
  expect(numbersInWords([])).toBe('');
  expect(numbersInWords([10, 9, 2])).toBe('2, 9..10');
});

describe('a reading that stands', () => {
  it('is over its limit by what it is', () => {
    const reading = cell(1, 2.31, 'A>B', 500);
    expect(told('over-limit', [reading])).toEqual([
      {
        name: 'over-limit',
        place: reading.place,
        details: { ...key, ...judgedBy, loss: 2.31, over: 0.51, margin: -0.51 },
      },
    ]);
  });

  it('is marginal on either side', () => {
    const [inside, outside] = [cell(1, 1.7, 'A>B', 500), cell(1, 1.9, 'A>B', 500)];
    expect(told('marginal-pass', [inside])).toEqual([
      {
        name: 'marginal-pass',
        place: inside.place,
        details: { ...key, ...judgedBy, loss: 1.7, margin: 0.1 },
      },
    ]);
    expect(told('marginal-fail', [outside])).toEqual([
      {
        name: 'marginal-fail',
        place: outside.place,
        details: { ...key, ...judgedBy, loss: 1.9, over: 0.1, margin: -0.1 },
      },
    ]);
    expect(names([cell(1, 1.8, 'A>B', 500)])).toEqual(['marginal-pass']);
    expect(names([cell(1, 1, 'A>B', 500)])).toEqual([]);
  });

  it('shows no light, and so more than its set-up sees', () => {
    const dark = cell(1, 'dark', 'A>B', 500);
    expect(told('over-limit', [dark])).toEqual([
      {
        name: 'over-limit',
        place: dark.place,
        details: { ...key, ...judgedBy, bound: 40, over: 38.2, dark: 1 },
      },
    ]);
  });

  it('was read as a power, by a recalled figure, at a later attempt', () => {
    const set = limitsSet('SET', 0.75, 3);
    const recalled = {
      ...set,
      fibre: set.fibre.map((one) => ({ ...one, trust: 'recalled' as const })),
    };
    const power: ReadingCell = {
      ...cell(1, 1, 'A>B', 600),
      quantity: 'power',
      loss: undefined,
      power: dbm(-22.31),
    };
    const readings = [cell(1, 1, 'A>B', 500), power];
    expect(told('over-limit', readings, { terms: { limits: [recalled] } })).toMatchObject([
      { details: { loss: 2.31, power: -22.31, recalled: 1, attempt: 2 } },
    ]);
  });

  it('is judged by the mean of both directions', () => {
    const readings = [cell(1, 2.1, 'A>B', 500), cell(1, 1.7, 'B>A', 500)];
    const directions = { wanted: ['A>B' as const, 'B>A' as const], average: true };
    expect(
      told('marginal-fail', readings, { terms: { directions } }).map(({ details }) => details),
    ).toMatchObject([
      { direction: 'A>B', loss: 2.1, average: 1.9, margin: -0.1, over: 0.1 },
      { direction: 'B>A', loss: 1.7, average: 1.9, margin: -0.1, over: 0.1 },
    ]);
  });

  it('is of a fibre that the plan has not', () => {
    const strange = cell(7, 1, 'A>B', 500);
    expect(told('fibre-not-in-plan', [strange], { fibres: 2 })).toEqual([
      {
        name: 'fibre-not-in-plan',
        place: strange.place,
        details: { ...key, fibre: 7, object: 'KQ-1', has: '1..2' },
      },
    ]);
    expect(names([cell(7, 9, 'A>B', 500)], { fibres: 2 })).toEqual([
      'fibre-not-in-plan',
      'readings-missing',
    ]);
    expect(names([strange], { fibres: 0 })).toEqual([]);
  });
});

describe('a retest', () => {
  const reject = (...bands: readonly object[]) => ({
    terms: { limits: [limitsSet('SET', 0.75, 3, { reject: bands as never })] },
  });
  const asked = (bands: readonly object[], ...losses: readonly number[]) => {
    const readings = losses.map((loss, at) => cell(1, loss, 'A>B', 500 + at));
    const {
      action,
      reject: over,
      far,
      object,
      retests,
    } = told('over-limit', readings, reject(...bands))[0]?.details ?? {};
    return { action, over, far, object, retests };
  };

  it('comes first, unless it is too far over or has been tried too often', () => {
    const band = { over: db(1), after: 2 };
    const again = { action: 'clean and retest', over: 1, far: undefined, object: 'link' };
    expect(asked([band], 2.5)).toEqual({ ...again, retests: 0 });
    expect(asked([band], 2.5, 2.5)).toEqual({ ...again, retests: 1 });
    expect(asked([band], 2.5, 2.5, 2.5)).toEqual({ ...again, action: 'reject', retests: 2 });
    // A pass between is no failed try.
    expect(asked([band], 2.5, 1, 2.5)).toEqual({ ...again, retests: 1 });
    expect(asked([band], 2.8)).toEqual({
      action: 'reject',
      over: 1,
      far: 1,
      object: 'link',
      retests: 0,
    });
    expect(asked([band], 2.799999)).toMatchObject({ action: 'clean and retest' });
    expect(asked([{ over: db(1) }], 2.5, 2.5, 2.5, 2.5)).toMatchObject({
      action: 'clean and retest',
      retests: 3,
    });
  });

  it('follows the band of its object, and none where none is said', () => {
    const assembly = { over: db(0.1), object: 'assembly' };
    expect(asked([assembly, { over: db(1), object: 'link' }], 2.5)).toMatchObject({ over: 1 });
    expect(asked([assembly, { over: db(2) }], 2.5)).toMatchObject({ over: 2 });
    expect(asked([assembly], 2.5)).toEqual({});
    expect(asked([], 2.5)).toEqual({});
    const tight = [{ over: db(1) }];
    expect(
      told('marginal-fail', [cell(1, 1.9, 'A>B', 500)], reject(...tight))[0]?.details,
    ).not.toHaveProperty('action');
    const dark = told('over-limit', [cell(1, 'dark', 'A>B', 500)], reject({ over: db(1) }))[0]
      ?.details;
    expect(dark).toMatchObject({ action: 'clean and retest', retests: 0 });
  });
});

describe('readings that cannot stand', () => {
  const unknown = (fibre: number, minute: number) => ({
    ...cell(fibre, 1, 'A>B', minute),
    setup: 'TWO',
  });

  it('for one cause are told once, on the first', () => {
    const readings = [unknown(1, 500), unknown(3, 501), unknown(2, 502)];
    expect(told('setup-unknown', readings)).toMatchObject([
      { place: readings[0]?.place, details: { readings: 3, fibres: '1..3' } },
    ]);
  });

  it('and were measured again, or taken back, are not told', () => {
    expect(names([unknown(1, 500), cell(1, 1, 'A>B', 600)])).toEqual([]);
    expect(names([cell(1, 1, 'A>B', 400), unknown(1, 600)])).toContain('setup-unknown');
    const withdrawals = [{ object: 'KQ-1', because: 'slip', by: 'R. Vale', place: place() }];
    expect(names([unknown(1, 500)], { also: { withdrawals } })).toEqual(['readings-missing']);
  });

  it('each for itself where the cause is its own', () => {
    const readings = [cell(1, 46, 'A>B', 500), cell(2, 46, 'A>B', 500)];
    const own = readings.map((one) => ({ ...one, place: { ...one.place, block: 9 } }));
    expect(
      told('loss-negative', [cell(1, -0.2, 'A>B', 500), cell(2, -0.2, 'A>B', 500)]).length,
    ).toBe(2);
    // An implausible loss is one of those that lie in the set-up, and told once.
    expect(told('unit-suspect', own).length).toBe(1);
  });

  it('because of work are told of the one that stands', () => {
    const work = [
      { object: 'KQ-1', done: 'cleaned', on: { ...when(700), text: 'ten' }, place: place() },
    ];
    const readings = [cell(1, 1, 'A>B', 500), cell(1, 1, 'A>B', 600)];
    const [stale, ...more] = told('stale-reading', readings, { also: { work } });
    expect(more).toEqual([]);
    expect(stale).toMatchObject({
      place: readings[1]?.place,
      details: { readings: 1, tested: 'minute 600' },
    });
    expect(names([...readings, cell(1, 1, 'A>B', 800)], { also: { work } })).not.toContain(
      'stale-reading',
    );
  });
});

describe('what is missing', () => {
  it('is listed by key, six of them in words', () => {
    const model = judged([cell(1, 1, 'A>B', 500)], { fibres: 8 });
    expect(told('readings-missing', [cell(1, 1, 'A>B', 500)], { fibres: 8 })).toMatchObject([
      {
        place: { block: 1 },
        details: {
          missing: 7,
          expected: 8,
          present: 1,
          fibre: 2,
          wavelength: 850,
          direction: 'A>B',
          fibres: '2..8',
          list: [2, 3, 4, 5, 6, 7].map((each) => `fibre ${each}, 850 nm A>B`).join('; '),
          more: 1,
        },
      },
    ]);
    expect(model.doubts[0]?.place).toBe(model.link.namePlace);
    expect(told('readings-missing', [], { fibres: 2 })[0]?.details).toMatchObject({
      missing: 2,
      present: 0,
      more: 0,
    });
    expect(told('readings-missing', [cell(1, 1, 'A>B', 500)])).toEqual([]);
  });

  it('of a tree is named by its ends', () => {
    const way = (name: string, end: number): Way =>
      ({
        kind: 'branch',
        name,
        fibre: end,
        path: path(),
        from: 'A',
        to: name,
        place: place(),
      }) as unknown as Way;
    const model = { ways: [way('HALL/01', 1), way('HALL/02', 2)] };
    expect(told('readings-missing', [], { fibres: 2, model })).toMatchObject([
      { details: { fibre: 1, end: 'HALL/01', list: 'HALL/01, 850 nm A>B; HALL/02, 850 nm A>B' } },
    ]);
  });

  it('is a limit that cannot be built', () => {
    const bare = limitsSet('BARE', 0.75, 3, { fibre: [] });
    expect(
      told('limit-missing', [], { terms: { limits: [bare] } }).map(({ details }) => details),
    ).toEqual([
      {
        wavelength: 850,
        limitName: 'BARE',
        because: 'BARE has no figure for fibre GLASS at 850 nm',
      },
    ]);
    expect(told('limit-missing', [], { terms: { limits: [], compare: [bare] } })).toEqual([]);
  });
});

describe('a design', () => {
  const service = (loss: number) => ({ carries: [carried(application([{ reach: 900, loss }]))] });

  it('over its limit names its heaviest terms, and how long the fibre may be', () => {
    const terms = service(2);
    const found = judged([], { elements: path(300), terms });
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
    expect(told('budget-over-limit', [], { elements: path(300), terms: service(2.4) })).toEqual([]);
  });

  it('of four terms names three, and of two fibres no length', () => {
    const second = { ...fibre, name: 'B', meets: ['GLASS'] };
    const other: PathElement = { ...segment(100), fibreName: 'B', fibre: second };
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
    expect(told('budget-over-limit', [], { elements: path(50), by: rounded })).toEqual([]);
    expect(
      told('budget-over-limit', [], { elements: path(300), by: rounded, terms: service(2) }).length,
    ).toBe(1);
    // 2.1 dB of parts by a service of 2.0 dB: a tenth over, whatever is rounded.
    expect(
      told('budget-over-limit', [], { elements: path(200), by: rounded, terms: service(2) }).length,
    ).toBe(1);
  });
});

describe('an instrument past its due date', () => {
  const due = { ...when(0, 499), text: 'yesterday' };
  const with_ = (source: boolean, meter: boolean): Setup => {
    const using = setup();
    const late = (text: string) => ({
      text,
      wavelengths: [],
      floor: dbm(-60),
      due,
      place: place(),
    });
    return {
      ...using,
      ...(source && { source: late('S-3') }),
      ...(meter && { meter: late('M-5') }),
    };
  };

  it('is told once for all that was read with it', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1, 'A>B', 501)];
    const using = with_(true, true);
    expect(told('calibration-expired', readings, { using })).toEqual(
      [using.source, using.meter].map((instrument) => ({
        name: 'calibration-expired',
        place: readings[0]?.place,
        related: [{ place: instrument?.place, message: `${instrument?.text}, due yesterday` }],
        details: {
          setup: 'ONE',
          instrument: instrument?.text,
          due: 'yesterday',
          tested: 'minute 500',
          readings: 2,
        },
      })),
    );
    const spans = { ...cell(1, 1, 'A>B', 490), at: { ...when(490, 499), text: 'then' } };
    expect(told('calibration-expired', [spans], { using })).toEqual([]);
    expect(
      told('calibration-expired', [{ ...spans, at: { ...when(490, 500), text: 'then' } }], {
        using,
      }).length,
    ).toBe(2);
    // One of the future has a wrong year, and no calibration for it.
    expect(told('calibration-expired', readings, { using, more: { asOf: 499 } })).toEqual([]);
  });
});

describe('the sum of a link', () => {
  it('counts what stands, and names the worst margin', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1.7, 'A>B', 500), cell(3, 1.5, 'A>B', 500)];
    const result = judged(readings, { fibres: 4 });
    expect(result.counts).toMatchObject({ pass: 2, 'marginal-pass': 1, untested: 1, fail: 0 });
    expect(result).toMatchObject({ expected: 4, present: 3, verdict: 'untested', accepted: false });
    expect([result.worstMargin?.margin, result.worstMargin?.reading.fibre]).toEqual([
      exactDb(db(0.1)),
      2,
    ]);
    expect(result.length).toBe(metres(100));
    expect(result.fibres.map(({ verdict }) => verdict)).toEqual([
      'pass',
      'marginal-pass',
      'pass',
      'untested',
    ]);
  });

  it('sets aside what does not stand for it', () => {
    const work = [{ object: 'KQ-1', done: 'cleaned', on: when(600), fibres: [2], place: place() }];
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1.79, 'A>B', 500)];
    expect(judged(readings, { also: { work } }).worstMargin?.reading.fibre).toBe(1);
    const concessions = [
      {
        object: 'KQ-1',
        accepted: db(3),
        because: 'spare',
        by: 'M. Ashdown',
        fibres: [2],
        place: place(),
      },
    ];
    const over = [cell(1, 1, 'A>B', 500), cell(2, 2.5, 'A>B', 500)];
    const conceded = judged(over, { also: { concessions } });
    expect([conceded.worstMargin?.reading.fibre, conceded.verdict, conceded.accepted]).toEqual([
      1,
      'conceded',
      true,
    ]);
    expect(conceded.doubts).toMatchObject([
      {
        name: 'excess-conceded',
        details: {
          loss: 2.5,
          over: 0.7,
          because: 'fail by 0.70 dB; up to 3.00 dB accepted by M. Ashdown: spare',
        },
      },
    ]);
  });

  it('keeps what was withdrawn in sight', () => {
    const withdrawals = [{ object: 'KQ-1', because: 'wrong cord', by: 'R. Vale', place: place() }];
    const [reading, missing] = judged([cell(1, 1, 'A>B', 500)], { also: { withdrawals } }).readings;
    expect(reading).toMatchObject({
      verdict: 'invalid',
      because: 'withdrawn by R. Vale: wrong cord',
      reason: 'withdrawn',
      current: false,
    });
    expect(missing).toMatchObject({ verdict: 'untested', attempt: null });
  });

  it('lists readings in order of the text, and those of a fibre by light and direction', () => {
    const readings = [
      cell(1, 1, 'B>A', 500),
      cell(1, 1.1, 'A>B', 495),
      cell(1, 0.9, 'A>B', 500, 1300),
      cell(1, 1.2, 'A>B', 490),
    ];
    const terms = {
      measure: [nm(850), nm(1300)],
      directions: { wanted: ['A>B' as const, 'B>A' as const], average: false },
    };
    const result = judged(readings, { terms });
    expect(result.readings.map(({ loss }) => (loss ?? 0) / 1e6)).toEqual([1, 1.1, 0.9, 1.2, 0]);
    expect(
      result.fibres[0]?.current.map(({ wavelength, direction, verdict }) => [
        wavelength,
        direction,
        verdict,
      ]),
    ).toEqual([
      [nm(850), 'A>B', 'pass'],
      [nm(850), 'B>A', 'pass'],
      [nm(1300), 'A>B', 'pass'],
      [nm(1300), 'B>A', 'untested'],
    ]);
    expect(result.readings.map(({ attempt }) => attempt)).toEqual([1, 2, 1, 1, null]);
  });

  it('has no length where a stretch is unknown', () => {
    const unknown = { ...stretch(0), deliberate: true } as PathElement;
    expect(judged([], { elements: [...path(), unknown, mated()] }).length).toBeUndefined();
  });
});

describe('where light was seen', () => {
  const ports = { from: ['A:1', 'A:2'], to: ['B:1', 'B:2'] };
  const seen = (fibre: number, port: string, minute = 500, side: 'A' | 'B' = 'B'): SeenCell => ({
    object: 'KQ-1',
    fibre,
    port,
    side,
    at: when(minute),
    place: place(),
  });
  const read = (fibre: number, port?: string, direction: 'A>B' | 'B>A' = 'A>B') => ({
    ...cell(fibre, 1, direction, 500),
    ...(port !== undefined && { seen: port }),
  });
  const wrong = (
    readings: readonly ReadingCell[],
    cells: readonly SeenCell[],
    more: Partial<Evidence> = {},
  ) => told('wrong-pair', readings, { fibres: 2, model: ports, also: { seen: cells, ...more } });

  it('at another port the reading is of another pair', () => {
    const cells = [seen(1, 'B:2'), seen(2, 'B:1')];
    const [first, second] = [read(1, 'B:2'), read(2, 'B:1')];
    const because = 'its light came out at B:2, and the plan lets it out at B:1';
    expect(wrong([first, second], cells)).toEqual([
      {
        name: 'wrong-pair',
        place: first.place,
        related: [{ place: cells[1]?.place, message: 'fibre 2 came out at B:1' }],
        details: {
          ...key,
          seen: 'B:2',
          wanted: 'B:1',
          belongs: 2,
          swapped: 2,
          because,
          readings: 1,
          fibres: '1',
        },
      },
      {
        name: 'wrong-pair',
        place: second.place,
        related: [{ place: cells[0]?.place, message: 'fibre 1 came out at B:2' }],
        details: {
          ...key,
          fibre: 2,
          seen: 'B:1',
          wanted: 'B:2',
          belongs: 1,
          swapped: 1,
          because: 'its light came out at B:1, and the plan lets it out at B:2',
          readings: 1,
          fibres: '2',
        },
      },
    ]);
    const alone = wrong([first], [seen(1, 'B:2')]);
    expect(alone[0]?.details).toMatchObject({ belongs: 2 });
    expect(alone[0]?.details).not.toHaveProperty('swapped');
    expect(alone[0]?.related).toEqual([]);
    const nowhere = wrong([read(1, 'C:9')], [seen(1, 'C:9')]);
    expect(nowhere[0]?.details).not.toHaveProperty('belongs');
  });

  it('at its own it is its own, from either end', () => {
    expect(wrong([read(1, 'B:1')], [seen(1, 'B:1')])).toEqual([]);
    expect(wrong([read(1, 'A:1', 'B>A')], [seen(1, 'A:1', 500, 'A')])).toEqual([]);
    expect(wrong([read(1, 'B:1', 'B>A')], [seen(1, 'B:1')])).toEqual([]);
    expect(wrong([read(1, 'A:2', 'B>A')], [seen(1, 'A:2', 500, 'A')])[0]?.details).toMatchObject({
      wanted: 'A:1',
      seen: 'A:2',
    });
    expect(wrong([read(1, 'B:2', 'B>A')], [seen(1, 'B:2')])[0]?.details).toMatchObject({
      wanted: 'B:1',
    });
  });

  it('is what was seen last, unless work came after or it was taken back', () => {
    expect(wrong([read(1)], [seen(1, 'B:2', 400), seen(1, 'B:1', 500)])).toEqual([]);
    expect(wrong([read(1)], [seen(1, 'B:1', 400), seen(1, 'B:2', 500)]).length).toBe(1);
    expect(wrong([read(1)], [seen(1, 'B:2', 500), seen(1, 'B:1', 400)]).length).toBe(1);
    expect(wrong([read(1)], [seen(1, 'B:1', 500), seen(1, 'B:2', 500)]).length).toBe(1);
    const work = [{ object: 'KQ-1', done: 'patched', on: when(450), place: place() }];
    expect(wrong([read(1)], [seen(1, 'B:2', 400)], { work })).toEqual([]);
    const withdrawals = [
      { object: 'KQ-1', because: 'slip', by: 'R. Vale', tested: when(400, 400), place: place() },
    ];
    expect(wrong([read(1)], [seen(1, 'B:2', 400)], { withdrawals })).toEqual([]);
    expect(wrong([read(1)], [])).toEqual([]);
  });

  it('is told for itself where nothing was read of the fibre', () => {
    const one = seen(1, 'B:2');
    expect(wrong([], [one])).toEqual([
      {
        name: 'wrong-pair',
        place: one.place,
        related: [],
        details: { fibre: 1, seen: 'B:2', wanted: 'B:1', belongs: 2, readings: 0 },
      },
    ]);
    expect(wrong([], [seen(1, 'B:1')])).toEqual([]);
    expect(told('wrong-pair', [], { fibres: 2, also: { seen: [one] } })).toEqual([]);
  });
});

describe('what a contract asks of a batch', () => {
  const asked = (losses: readonly number[], required: object, more: Asked = {}) =>
    told(
      'batch-over-limit',
      losses.map((loss, at) => cell(at + 1, loss, 'A>B', 500)),
      {
        ...more,
        terms: {
          require: [{ kind: 'loss', sufficient: false, place: place(), ...required } as never],
        },
      },
    ).map(({ details }) => details);

  it('is its mean, or a share of it', () => {
    expect(asked([1, 1.2, 1.4], { loss: db(1.19), statistic: 'mean' })).toEqual([
      { wavelength: 850, limit: 1.19, readings: 3, within: 1, mean: 1.2, wanted: 'mean' },
    ]);
    expect(asked([1, 1.2, 1.4], { loss: db(1.2), statistic: 'mean' })).toEqual([]);
    const share = (percent: number): PartsPerMillion => partsPerMillion(percent * 10_000);
    expect(asked([1, 1.2, 1.4, 1.6], { loss: db(1.4), statistic: share(75) })).toEqual([]);
    expect(asked([1, 1.2, 1.4, 1.6], { loss: db(1.4), statistic: share(75.0001) })).toEqual([
      { wavelength: 850, limit: 1.4, readings: 4, within: 3, mean: 1.3, wanted: '75.0001 %' },
    ]);
    expect(asked([1, 1.2], { loss: db(0.5), statistic: 'mean', wavelength: nm(1300) })).toEqual([]);
    expect(asked([1, 1.2], { loss: db(0.5), statistic: 'mean', wavelength: nm(850) }).length).toBe(
      1,
    );
    expect(asked([1, 1.2], { loss: db(0.5) })).toEqual([]);
    // A reading that cannot stand is no part of it.
    expect(asked([1, 46], { loss: db(1), statistic: 'mean' })).toEqual([]);
  });
});

describe('work elsewhere', () => {
  const crossed = (more: Partial<LinkModel> = {}) => ({
    ...link(path(), {}, 4),
    name: 'KQ-1',
    ...more,
  });
  const array: ConnectorType = { ...connector, positions: 12 };

  /** Verdicts of a channel over fibres 3 and 4 of a link that was worked on. */
  const verdicts = (work: object, of: LinkModel, kind: LinkModel['kind'] = 'channel') => {
    const crossing: PathElement = {
      kind: 'link',
      name: 'KQ-1',
      link: of,
      turned: false,
      fibres: [3, 4],
      place: place(),
    };
    const channel = { ...link([crossing], forward, 2), kind, name: 'CH-1' };
    const readings = [1, 2].map((each) => ({ ...cell(each, 1, 'A>B', 500), object: 'CH-1' }));
    const done = { object: 'KQ-1', done: 'cleaned', on: when(600), place: place(), ...work };
    return evaluate(channel, evidence({ readings }), setup(), settings(), {
      crossed: () => ({ result: {} as never, work: [done as never] }),
    }).fibres.map(({ verdict }) => verdict);
  };

  it('ages a channel in its own numbers', () => {
    expect(verdicts({ fibres: [3] }, crossed())).toEqual(['stale', 'pass']);
    expect(verdicts({ fibres: [4] }, crossed())).toEqual(['pass', 'stale']);
    expect(verdicts({ fibres: [1, 2] }, crossed())).toEqual(['pass', 'pass']);
    expect(verdicts({}, crossed())).toEqual(['stale', 'stale']);
    expect(verdicts({ fibres: [3] }, crossed(), 'ring')).toEqual(['stale', 'pass']);
    expect(verdicts({ fibres: [3] }, crossed(), 'link')).toEqual(['pass', 'pass']);
  });

  it('touches all that share an array joint', () => {
    const pair: PathElement = { kind: 'connector', name: 'MPO', type: array, place: place() };
    const trunk = crossed({ path: [pair, stretch(100), pair] });
    expect(verdicts({ fibres: [1] }, trunk)).toEqual(['stale', 'stale']);
    const two: PathElement = { ...pair, type: { ...array, positions: 2 } } as PathElement;
    expect(verdicts({ fibres: [3] }, crossed({ path: [two, stretch(100), two] }))).toEqual([
      'stale',
      'pass',
    ]);
  });
});

it('evidence of later than now does not count, and work of later still ages', () => {
  const later = when(2000);
  const concessions = [
    {
      object: 'KQ-1',
      accepted: db(3),
      because: 'spare',
      by: 'M. Ashdown',
      on: later,
      place: place(),
    },
  ];
  const over = [cell(1, 2.5, 'A>B', 500)];
  expect(judged(over, { also: { concessions }, more: { asOf: 1999 } }).verdict).toBe('fail');
  expect(judged(over, { also: { concessions }, more: { asOf: 2000 } }).verdict).toBe('conceded');
  const withdrawals = [
    { object: 'KQ-1', because: 'slip', by: 'R. Vale', on: later, place: place() },
  ];
  expect(judged(over, { also: { withdrawals }, more: { asOf: 1999 } }).verdict).toBe('fail');
  expect(judged(over, { also: { withdrawals }, more: { asOf: 2000 } }).verdict).toBe('untested');
  const work = [{ object: 'KQ-1', done: 'cleaned', on: later, place: place() }];
  expect(judged(over, { also: { work }, more: { asOf: 1999 } }).verdict).toBe('stale');
});
