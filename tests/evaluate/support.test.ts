/**
 * Whether a path carries a service, and what is said where it does not. Fibre of
 * 3.0 dB/km at 850 nm and pairs of 0.75 dB (TIA-568.3-E): two pairs and 100 m lose
 * 1.8 dB at most. That the terms of a row hold together is the form of the tables of
 * IEEE 802.3; that a duplex service takes one fibre each way is theirs, too.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, printExactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  ApplicationRow,
  ApplicationType,
  FibreType,
  LinkModel,
  PathElement,
  ReadingCell,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  cell,
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
  setup,
  stretch,
  when,
} from '../support/build.ts';

type Segment = Extract<PathElement, { kind: 'segment' }>;

const service = (
  rows: readonly Partial<ApplicationRow>[],
  more: Partial<ApplicationType> = {},
): ApplicationType => ({
  ...application([]),
  rows: rows.map((row) => ({ fibre: 'GLASS', place: place(), ...row })),
  ...more,
});
const row = (reach: number, loss: number, more: Partial<ApplicationRow> = {}) => ({
  reach: metres(reach),
  loss: db(loss),
  ...more,
});
const path = (length = 100): PathElement[] => [mated(), stretch(length), mated()];

interface Asked {
  readonly type?: Partial<ApplicationType>;
  readonly elements?: readonly PathElement[];
  readonly readings?: readonly ReadingCell[];
  readonly using?: Setup;
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly cords?: readonly number[];
}

function judged(rows: readonly Partial<ApplicationRow>[], asked: Asked = {}) {
  const { type, elements = path(), readings = [], using, terms, model, cords } = asked;
  const carries = carried(service(rows, type), cords);
  const whole = { ...link(elements, { carries: [carries], ...terms }, 2), ...model };
  const result = evaluate(whole, evidence({ readings }), using);
  const [answer] = result.applications;
  return { result, answer, carries };
}
const answered = (...asked: Parameters<typeof judged>) => {
  const { answer } = judged(...asked);
  return `${answer?.support}: ${answer?.because}`;
};
/** What is said of what is carried: name and details. */
const told = (...asked: Parameters<typeof judged>) => {
  const { result, carries } = judged(...asked);
  return result.doubts
    .filter((doubt) => doubt.place === carries.place)
    .map(({ name, details }): Record<string, unknown> => ({ name, ...details }));
};

describe('by design', () => {
  it('is said with its row, its light each way, and what it loses', () => {
    const { answer, carries } = judged([row(300, 2.6)]);
    const light = { wavelength: nm(850), greatest: exactDb(db(1.8)), least: 0n };
    expect(answer).toEqual({
      name: 'SERVICE',
      support: 'by design',
      row: 'GLASS, 300 m, 2.6 dB',
      because: '1.80 dB at the greatest figures of all parts',
      lengthLimit: metres(300),
      lossLimit: db(2.6),
      lossMin: undefined,
      light: [
        { ...light, direction: 'A>B' },
        { ...light, direction: 'B>A' },
      ],
      place: carries.place,
      recalled: false,
    });
    expect(told([row(300, 2.6)])).toEqual([]);
  });

  it('holds up to the terms of its row, and not beyond', () => {
    expect(answered([row(100, 1.8)])).toBe(
      'by design: 1.80 dB at the greatest figures of all parts',
    );
    expect(judged([row(99, 1.8)]).answer?.support).toBe('not supported');
    expect(judged([row(100, 1.799999)]).answer?.support).toBe('not supported');
    expect(judged([row(100, 1.8, { connections: db(1.5) })]).answer?.support).toBe('by design');
    expect(judged([row(100, 1.8, { connections: db(1.49) })]).answer?.support).toBe(
      'not supported',
    );
    expect(judged([row(100, 1.8, { min: db(0) })]).answer?.support).toBe('by design');
  });

  it('takes the row that holds, and of light the one that loses most', () => {
    const { answer } = judged([row(90, 9), row(300, 2.6, { trust: 'recalled' })]);
    expect(answer).toMatchObject({ row: 'GLASS, 300 m, 2.6 dB', recalled: true });
    const two = {
      wavelengths: [{ wavelength: nm(1300) }, { wavelength: nm(850), direction: 'B>A' as const }],
    };
    const found = judged([row(300, 2.6)], { type: two });
    expect(found.answer?.because).toContain('1.80 dB');
    expect(found.answer?.light?.map((one) => [one.wavelength, one.direction])).toEqual([
      [nm(1300), 'A>B'],
      [nm(1300), 'B>A'],
      [nm(850), 'B>A'],
    ]);
  });

  it('counts cords that are planned', () => {
    const { answer } = judged([row(104, 2.6)], { cords: [3, 2] });
    expect(answer?.because).toBe('105 m is longer than its reach');
    expect(judged([row(105, 1.815)], { cords: [3, 2] }).answer?.because).toBe(
      '1.815 dB at the greatest figures of all parts',
    );
  });

  it('asks for light that enters by another cord where the row says so', () => {
    const conditioned = row(300, 2.6, { conditioned: true });
    expect(told([conditioned])).toEqual([
      { name: 'mode-conditioning-needed', application: 'SERVICE', row: 'GLASS, 300 m, 2.6 dB' },
    ]);
    expect(told([{ ...conditioned, loss: db(1) }]).map(({ name }) => name)).toEqual([
      'application-loss-exceeded',
    ]);
  });
});

describe('not supported', () => {
  it('by its length', () => {
    expect(told([row(90, 2.6)])).toEqual([
      {
        name: 'reach-exceeded',
        application: 'SERVICE',
        because: '100 m is longer than its reach',
        row: 'GLASS, 90 m, 2.6 dB',
        length: 100,
        reach: 90,
        over: 10,
      },
    ]);
    const long = { elements: path(2500) };
    expect(answered([row(2000, 19)], long)).toBe('not supported: 2.5 km is longer than its reach');
  });

  it('by its loss', () => {
    expect(told([row(300, 1.7)])).toEqual([
      {
        name: 'application-loss-exceeded',
        application: 'SERVICE',
        because: '1.80 dB at the greatest figures is more than its loss',
        row: 'GLASS, 300 m, 1.7 dB',
        length: 100,
        reach: 300,
        from: 'design',
        loss: 1.8,
        limit: 1.7,
        over: 0.1,
        wavelength: 850,
      },
    ]);
  });

  it('by what its connections may take', () => {
    expect(told([row(300, 2.6, { connections: db(1.4) })])).toEqual([
      {
        name: 'application-loss-exceeded',
        application: 'SERVICE',
        because: 'its connections may lose too much',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        from: 'design',
        loss: 1.8,
        limit: 2.6,
        over: -0.8,
        wavelength: 850,
      },
    ]);
  });

  it('by too little loss', () => {
    expect(told([row(300, 2.6, { min: db(1) })])).toEqual([
      {
        name: 'application-loss-too-low',
        application: 'SERVICE',
        because: 'it may lose too little, 0.00 dB at the least',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        least: 0,
        wanted: 1,
        under: 1,
        from: 'design',
        uncounted: 'GLASS',
      },
    ]);
    const glass = (least: number): FibreType => ({
      ...fibre,
      attenuation: [
        { wavelength: nm(850), min: ratePerKm(least), max: ratePerKm(3_000_000) },
        { wavelength: nm(1300), min: ratePerKm(1_000_000), max: ratePerKm(1_500_000) },
      ],
    });
    const elements = [mated(), { ...stretch(1000), fibre: glass(2_000_000) } as Segment, mated()];
    const lights = { wavelengths: [{ wavelength: nm(850) }, { wavelength: nm(1300) }] };
    // 1.0 dB/km at 1300 nm over 1 km is the least of both.
    expect(told([row(2000, 9, { min: db(1.5) })], { elements, type: lights })).toMatchObject([
      { because: 'it may lose too little, 1.00 dB at the least', least: 1, under: 0.5 },
    ]);
    expect(
      told([row(2000, 9, { min: db(1.5) })], { elements, type: lights })[0],
    ).not.toHaveProperty('uncounted');
    expect(told([row(2000, 9, { min: db(1) })], { elements, type: lights })).toEqual([]);
  });

  it('by several terms at once, each said once', () => {
    expect(answered([row(90, 1.7, { connections: db(1), min: db(1) })])).toBe(
      'not supported: 100 m is longer than its reach; 1.80 dB at the greatest figures is more than its loss; its connections may lose too much; it may lose too little, 0.00 dB at the least',
    );
    expect(
      told([row(90, 1.7, { connections: db(1) })]).map(({ name, because }) => [name, because]),
    ).toEqual([
      [
        'reach-exceeded',
        '100 m is longer than its reach; 1.80 dB at the greatest figures is more than its loss; its connections may lose too much',
      ],
      [
        'application-loss-exceeded',
        '1.80 dB at the greatest figures is more than its loss; its connections may lose too much',
      ],
    ]);
  });

  it('by the fibre that is there', () => {
    expect(told([{ ...row(300, 2.6), fibre: 'OTHER' }])).toEqual([
      {
        name: 'application-fibre-unsuited',
        application: 'SERVICE',
        because: 'SERVICE has no row that GLASS meets',
        length: 100,
      },
    ]);
    expect(answered([row(300, 2.6)], { elements: [mated(), mated()] })).toBe(
      'not supported: SERVICE has no row that this path meets',
    );
    const other = {
      ...stretch(5),
      fibreName: 'OTHER',
      fibre: { ...fibre, name: 'OTHER' },
    } as Segment;
    expect(answered([row(300, 2.6)], { elements: [...path(), other, mated()] })).toBe(
      'not supported: SERVICE has no row that GLASS, OTHER meets',
    );
  });

  it('by too few fibres, dead ones not counted', () => {
    const few = {
      model: { fibres: [1, 2], dead: [{ fibre: 2, because: 'crushed' }] } as Partial<LinkModel>,
    };
    expect(answered([row(300, 2.6)], few)).toBe('not supported: it needs 2 fibres and has 1');
    expect(judged([row(300, 2.6)], few).answer?.row).toBe('GLASS, 300 m, 2.6 dB');
    expect(judged([row(300, 2.6)], { ...few, type: { count: 1 } }).answer?.support).toBe(
      'by design',
    );
  });

  it('by a length that nobody knows, unless no reach is asked', () => {
    const unknown = { ...stretch(0), deliberate: true } as Segment;
    const elements = [...path(), unknown, mated()];
    expect(answered([row(300, 2.6)], { elements })).toBe(
      'not supported: the length of the path is not known, and so neither is whether it reaches',
    );
    expect(judged([{ loss: db(9) }], { elements }).answer?.support).toBe('by design');
    const missing = { ...stretch(0), length: undefined } as Segment;
    expect(answered([row(300, 2.6)], { elements: [...path(), missing, mated()] })).toBe(
      'not supported: its length is not known; its loss at 850 nm is not known',
    );
  });

  it('by a figure that nobody states, and that is all that is said', () => {
    const bare: FibreType = { ...fibre, name: 'BARE', meets: ['GLASS'], attenuation: [] };
    const elements = [
      mated(),
      { ...stretch(100), fibre: bare, fibreName: 'BARE' } as Segment,
      mated(),
    ];
    expect(told([row(300, 2.6)], { elements, terms: { limits: [] } })).toEqual([
      {
        name: 'application-figure-missing',
        application: 'SERVICE',
        because: 'its loss at 850 nm is not known',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        missing: 'fibre BARE at 850 nm',
        wavelength: 850,
      },
    ]);
  });
});

describe('by what was read', () => {
  /** One-cord readings with cords of ordinary grade, so that nothing is said of other cords. */
  const using = setup({
    cords: setup().cords.map((cord) => ({ ...cord, grade: 'ordinary' as const })),
  });
  const pair = (a: number | 'dark', b: number | 'dark') => [
    cell(1, a, 'A>B', 500),
    cell(2, b, 'B>A', 500),
  ];

  it('a link is foretold, and a channel is measured', () => {
    const read = { readings: pair(1.2, 1.3), using };
    expect(answered([row(300, 2.6)], read)).toBe('predicted: 1.30 dB at most, also by design');
    expect(answered([row(300, 1.7)], read)).toBe(
      'predicted: 1.30 dB at most, this mating only: not by design at the greatest figures',
    );
    const channel = { ...read, model: { kind: 'channel' } as Partial<LinkModel> };
    expect(answered([row(300, 2.6)], channel)).toBe(
      'by measurement: 1.30 dB at most, also by design',
    );
    expect(judged([row(300, 2.6)], { readings: pair(1.3, 1.2), using }).answer?.because).toContain(
      '1.30 dB at most',
    );
  });

  it('needs each fibre in its direction, whichever way the pair is laid', () => {
    const word = (...readings: ReadingCell[]) =>
      judged([row(300, 2.6)], { readings, using }).answer?.support;
    expect(word(...pair(1, 1))).toBe('predicted');
    expect(word(cell(1, 1, 'B>A', 500), cell(2, 1, 'A>B', 500))).toBe('predicted');
    expect(word(cell(1, 1, 'A>B', 500), cell(2, 1, 'A>B', 500))).toBe('by design');
    expect(word(cell(1, 1, 'A>B', 500))).toBe('by design');
    const single = (...readings: ReadingCell[]) =>
      judged([row(300, 2.6)], { readings, using, type: { count: 1 }, model: { fibres: [1] } })
        .answer?.support;
    expect(single(cell(1, 1, 'A>B', 500))).toBe('by design');
    expect(single(cell(1, 1, 'A>B', 500), cell(1, 1, 'B>A', 500))).toBe('predicted');
    const one = { count: 1, wavelengths: [{ wavelength: nm(850), direction: 'B>A' as const }] };
    const way = (...readings: ReadingCell[]) =>
      judged([row(300, 2.6)], { readings, using, type: one, model: { fibres: [1] } }).answer
        ?.support;
    expect(way(cell(1, 1, 'A>B', 500))).toBe('by design');
    expect(way(cell(1, 1, 'B>A', 500))).toBe('predicted');
  });

  it('leaves spare fibres out unless they were given, and fibres that make no whole service', () => {
    const four = (readings: ReadingCell[], more: Partial<LinkModel> = {}) =>
      judged([row(300, 2.6)], { readings, using, model: { fibres: [1, 2, 3, 4], ...more } }).answer
        ?.support;
    expect(four(pair(1, 1))).toBe('by design');
    expect(four(pair(1, 1), { spare: [3, 4] })).toBe('predicted');
    expect(
      four(pair(1, 1), { dead: [3, 4].map((each) => ({ fibre: each, because: 'crushed' })) }),
    ).toBe('predicted');
    expect(four(pair(1, 1), { fibres: [1, 2, 3] })).toBe('predicted');
  });

  it('is refused by the reading that is over, and says which', () => {
    const over = { readings: pair(2.7, 1.3), using };
    expect(told([row(300, 2.6)], over)).toEqual([
      {
        name: 'application-loss-exceeded',
        application: 'SERVICE',
        because: 'fibre 1 A>B would lose 2.70 dB',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        from: 'reading',
        loss: 2.7,
        limit: 2.6,
        over: 0.1,
        wavelength: 850,
        fibres: '1',
      },
    ]);
    expect(told([row(300, 2.6)], { readings: pair(2.7, 2.8), using })).toMatchObject([
      { because: 'fibre 1 A>B would lose 2.70 dB', fibres: '1..2' },
    ]);
    expect(told([row(300, 2.6)], { readings: pair('dark', 1), using })).toMatchObject([
      {
        name: 'application-loss-exceeded',
        because: 'no light on fibre 1',
        from: 'reading',
        fibres: '1',
      },
    ]);
    expect(answered([row(300, 2.6)], { readings: pair(2.6, 1), using })).toContain(
      'predicted: 2.60 dB',
    );
  });

  it('is not refused by no light where the meter could not have seen what is allowed', () => {
    // −20 + 22.5 = 2.5 dB could be seen, 2.6 are allowed: less than that may arrive, or enough.
    const short = { ...using, meter: { ...using.meter!, floor: dbm(-22.5) } };
    const dark = { readings: pair('dark', 1), using: short };
    expect(told([row(300, 2.6)], dark)).toEqual([]);
    expect(answered([row(300, 2.6)], dark)).toContain('by design');
    expect(told([row(300, 2.4)], dark)).toMatchObject([{ because: 'no light on fibre 1' }]);
    // By readings it is not either: a fibre that nobody has seen light on foretells nothing.
    expect(answered([row(300, 2.6)], { ...dark, readings: pair('dark', 'dark') })).toContain(
      'by design',
    );
  });

  it('is refused by too little, and by nothing where no row reaches', () => {
    const weak = { readings: pair(1.2, 1.3), using };
    expect(told([row(300, 2.6, { min: db(1.25) })], weak)).toEqual([
      {
        name: 'application-loss-too-low',
        application: 'SERVICE',
        because: 'fibre 1 A>B would lose 1.20 dB',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        least: 1.2,
        wanted: 1.25,
        under: 0.05,
        from: 'reading',
      },
    ]);
    expect(answered([row(300, 2.6, { min: db(1.2) })], weak)).toContain('predicted');
    // Where no row reaches, what was read adds nothing to that.
    expect(
      told([row(90, 2.6)], { readings: pair(2.7, 1.3), using }).map(({ name }) => name),
    ).toEqual(['reach-exceeded']);
  });

  it('counts nothing that is stale, in no direction, of another window, or of no known arrangement', () => {
    const word = (readings: readonly ReadingCell[], more: Asked = {}) =>
      judged([row(300, 2.6)], { readings, using, ...more }).answer?.support;
    const far = pair(1, 1).map((one) => ({ ...one, wavelength: nm(1300) }));
    expect(word(far)).toBe('by design');
    const near = pair(1, 1).map((one) => ({ ...one, wavelength: nm(880) }));
    expect(word(near)).toBe('by design');
    const aimless = pair(1, 1).map(({ direction, ...one }) => one as ReadingCell);
    expect(word(aimless)).toBe('by design');
    const work = [{ object: 'KQ-1', done: 'cleaned', on: when(600), place: place() }];
    const type = carried(service([row(300, 2.6)]));
    const stale = evaluate(
      link(path(), { carries: [type] }, 2),
      evidence({ readings: pair(1, 1), work }),
      using,
    );
    expect(stale.applications[0]?.support).toBe('by design');
  });

  it('adds what lies outside of the reading', () => {
    // 1.20 dB read, and 50 m of cords at 3.0 dB/km.
    const { answer } = judged([row(300, 2.6)], {
      readings: pair(1.2, 1.1),
      using,
      cords: [25, 25],
    });
    expect(answer?.because).toBe('1.35 dB at most, also by design');
  });

  it('says what other cords would do, where it was read with those of reference grade', () => {
    // An ordinary pair of 0.75 dB in place of one of 0.45 dB at each end: 0.6 dB more.
    const readings = pair(1.2, 1.3);
    expect(answered([row(300, 2.6)], { readings })).toBe(
      'predicted: 1.30 dB at most, also by design',
    );
    expect(answered([row(300, 1.7)], { readings })).toBe(
      'predicted: 1.30 dB at most, this mating only: not by design at the greatest figures; not guaranteed: 1.90 dB with ordinary cords',
    );
    expect(answered([row(300, 1.9, { connections: db(1) })], { readings })).toBe(
      'predicted: 1.30 dB at most, this mating only: not by design at the greatest figures; 1.90 dB with ordinary cords',
    );
    expect(answered([row(300, 1.899999)], { readings: pair(1.2, 1.3) })).toContain(
      'not guaranteed: 1.90 dB with ordinary cords',
    );
    const plug: PathElement = { ...mated(), kind: 'plug' } as PathElement;
    const ended = { readings, elements: [mated(), stretch(100), plug] };
    expect(answered([row(300, 1)], ended)).toContain('fibre 1 A>B would lose');
    expect(answered([row(300, 1.5)], ended)).toContain(
      'not guaranteed: 1.60 dB with ordinary cords',
    );
    const same = limitsSet('SAME', 0.75, 3);
    const flat = { ...same, connector: same.connector.map((one) => ({ ...one, loss: db(0.75) })) };
    expect(answered([row(300, 1.7)], { readings, terms: { limits: [flat] } })).toBe(
      'predicted: 1.30 dB at most, this mating only: not by design at the greatest figures',
    );
    const bare = limitsSet('BARE', 0.75, 3, { connector: [] });
    expect(
      answered([row(300, 1.7)], { readings, terms: { limits: [bare], compare: [same] } }),
    ).toContain('not guaranteed: 1.90 dB');
  });
});

describe('the light of a service', () => {
  it('takes figures at its own wavelength, else at one that is measured in its window', () => {
    const lit = (wavelength: number, terms: Partial<Terms> = {}) =>
      judged([row(300, 9)], {
        type: { wavelengths: [{ wavelength: nm(wavelength) }] },
        terms,
      }).answer?.light?.map((one) => [
        one.wavelength,
        one.greatest === undefined ? undefined : printExactDb(one.greatest),
      ])[0];
    expect(lit(850)).toEqual([nm(850), '1.8']);
    expect(lit(860)).toEqual([nm(860), '1.8']);
    expect(lit(1310)).toEqual([nm(1310), '1.65']);
    expect(lit(953)).toEqual([nm(953), undefined]);
  });
});
