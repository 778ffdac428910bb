/**
 * What stands beside losses, whole: end faces, lengths, what a contract requires,
 * reflectances, lines that are shared, repairs. An end face is inspected, cleaned and
 * inspected again (practice after IEC 61300-3-35); more return loss is better
 * (IEC 61300-3-6); the rest is arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import { plannedArrangement } from '../../server/src/evaluate/arrangement.ts';
import { setFigures } from '../../server/src/evaluate/figures.ts';
import { flatten, type Piece } from '../../server/src/evaluate/path.ts';
import { readingSum, wholeSum } from '../../server/src/evaluate/sums.ts';
import type {
  ComponentType,
  ConnectorType,
  Evidence,
  FibreType,
  InspectionCell,
  LengthCell,
  LinkModel,
  PathElement,
  ReadingCell,
  Requirement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  cell,
  connector,
  db,
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
  welded,
  when,
} from '../support/build.ts';

const path = (length = 5000): PathElement[] => [mated(), stretch(length), mated()];
const quiet = { measure: [], directions: { wanted: ['A>B' as const], average: false } };

function judged(
  more: Partial<Evidence>,
  {
    terms,
    model,
    using,
    elements = path(),
    fibres = 2,
  }: {
    terms?: Partial<Terms>;
    model?: Partial<LinkModel>;
    using?: Setup;
    elements?: readonly PathElement[];
    fibres?: number;
  } = {},
) {
  const whole = { ...link(elements, { ...quiet, ...terms }, fibres), ...model };
  return evaluate(whole, evidence(more), using, settings());
}
const work = (fibres?: readonly number[]) => [
  {
    object: 'KQ-1',
    done: 'cleaned',
    on: { ...when(600), text: 'ten' },
    ...(fibres && { fibres }),
    place: place(),
  },
];

describe('an end face', () => {
  const face = (
    number: number,
    side: 'A' | 'B',
    seen: InspectionCell['seen'],
    more: Partial<InspectionCell> = {},
  ): InspectionCell => ({
    object: 'KQ-1',
    fibre: number,
    side,
    seen,
    at: when(500),
    place: place(),
    row: place(),
    ...more,
  });

  it('is as it was last seen, in order of fibre and end', () => {
    const cells = [
      face(2, 'A', 'pass'),
      face(1, 'B', 'fail', { criterion: 'clause 9' }),
      face(1, 'A', 'cleaned'),
    ];
    const { inspections, doubts } = judged({ inspections: cells });
    expect(inspections).toEqual([
      {
        fibre: 1,
        end: undefined,
        side: 'A',
        seen: 'cleaned',
        cell: cells[2],
        verdict: 'not-judged',
        because: 'cleaned, and not inspected since: it has not passed yet',
      },
      {
        fibre: 1,
        end: undefined,
        side: 'B',
        seen: 'fail',
        cell: cells[1],
        verdict: 'fail',
        because: 'clause 9',
      },
      {
        fibre: 2,
        end: undefined,
        side: 'A',
        seen: 'pass',
        cell: cells[0],
        verdict: 'pass',
        because: '',
      },
    ]);
    expect(doubts).toEqual([
      {
        name: 'end-face-not-seen-again',
        place: cells[2]?.place,
        details: { fibre: 1, side: 'A', inspected: 'minute 500' },
      },
      {
        name: 'end-face-poor',
        place: cells[1]?.place,
        details: { fibre: 1, side: 'B', inspected: 'minute 500', criterion: 'clause 9' },
      },
    ]);
  });

  it('that fails is more where inspection is required, and aged by work', () => {
    const inspection: Requirement = { kind: 'inspection', place: place() };
    const cells = [face(1, 'A', 'fail')];
    const names = (more: Partial<Evidence>, terms: Partial<Terms> = { require: [inspection] }) =>
      judged({ inspections: cells, ...more }, { terms, fibres: 1 }).doubts.map(({ name }) => name);
    expect(names({})).toEqual(['end-face-fails', 'inspection-missing']);
    expect(names({}, {})).toEqual(['end-face-poor']);
    expect(names({ work: work() }, {})).toEqual(['evidence-aged']);
    expect(judged({ inspections: cells, work: work() }).inspections[0]?.because).toBe(
      'cleaned on ten, after it was inspected',
    );
    expect(judged({ inspections: [face(1, 'A', 'cleaned')], work: work() }).doubts).toMatchObject([
      {
        name: 'evidence-aged',
        place: expect.anything(),
        details: { events: 0, faces: 1, lengths: 0 },
      },
    ]);
  });

  it('seen twice at one time, of a fibre that is none, taken back', () => {
    const two = [face(1, 'A', 'pass'), face(1, 'A', 'fail')];
    expect(
      judged({ inspections: two }).doubts.filter(({ name }) => name === 'measured-twice'),
    ).toEqual([
      {
        name: 'measured-twice',
        place: two[1]?.place,
        related: [{ place: two[0]?.place, message: 'the first one' }],
        details: { fibre: 1, what: 'end face A', tested: 'minute 500' },
      },
    ]);
    const strange = [face(7, 'A', 'pass'), face(7, 'B', 'pass')];
    expect(judged({ inspections: strange }).doubts).toEqual([
      {
        name: 'fibre-not-in-plan',
        place: strange[0]?.place,
        details: { fibre: 7, object: 'KQ-1', has: '1..2' },
      },
    ]);
    expect(judged({ inspections: strange }, { fibres: 0 }).doubts).toEqual([]);
    const withdrawals = [{ object: 'KQ-1', because: 'slip', by: 'R. Vale', place: place() }];
    expect(judged({ inspections: two, withdrawals }).inspections).toEqual([]);
  });

  it('is graded by a criterion of its own kind', () => {
    const grade = (more: object) => ({ name: 'FACE', place: place(), ...more });
    const asked = (
      more: object,
      type: ConnectorType = connector,
      also: Partial<InspectionCell> = {},
    ) => {
      const pair: PathElement = { kind: 'connector', name: 'PAIR', type, place: place() };
      const line = grade(more);
      const cells = [
        face(1, 'A', 'pass', { grade: line, ...also }),
        face(1, 'B', 'pass', { grade: line, ...also }),
      ];
      const { doubts } = judged({ inspections: cells }, { elements: [pair, stretch(10), pair] });
      expect(doubts.every(({ place: at }) => at === line.place)).toBe(true);
      return doubts.map(({ name, details }) => ({ name, ...details }));
    };
    const name = 'criterion-of-other-face';
    const base = { name, criterion: 'FACE', link: 'KQ-1', side: 'A' };
    expect(asked({ mode: 'single-mode' })).toEqual([
      { ...base, graded: 'single-mode', faces: 'multimode' },
    ]);
    expect(asked({ mode: 'multimode' })).toEqual([]);
    expect(asked({ polish: 'APC' }, { ...connector, polish: 'UPC' })).toEqual([
      { ...base, graded: 'APC', faces: 'UPC' },
    ]);
    expect(asked({ polish: 'PC' }, { ...connector, polish: 'UPC' })).toEqual([]);
    expect(asked({ polish: 'UPC' }, { ...connector, polish: 'APC' }).length).toBe(1);
    expect(asked({ polish: 'APC' })).toEqual([]);
    expect(asked({}, { ...connector, polish: 'APC' })).toEqual([]);
    expect(asked({ polish: 'APC' }, { ...connector, polish: 'UPC' }, { end: 'HALL/01' })).toEqual(
      [],
    );
  });
});

describe('a measured length', () => {
  const long = (length: number, more: Partial<LengthCell> = {}): LengthCell => ({
    object: 'KQ-1',
    fibre: 1,
    length: metres(length),
    from: 'reading',
    setup: 'ONE',
    at: when(500),
    place: place(),
    row: place(),
    ...more,
  });
  const word = (
    length: number,
    more: Parameters<typeof judged>[1] = {},
    also: Partial<Evidence> = {},
  ) => {
    const [one] = judged({ lengths: [long(length)], ...also }, more).lengths;
    return `${one?.verdict}: ${one?.because}`;
  };

  it('is held to what is declared, the helix of the fibre allowed', () => {
    expect(word(5000)).toBe('pass: 5 km, as long as the 5 km declared');
    expect(word(5050)).toBe(
      'pass: 5.05 km, 1.00 % over the 5 km declared: the fibre lies in its cable as a helix and is longer than the sheath',
    );
    expect(word(4900)).toBe('pass: 4.9 km, 2.00 % under the 5 km declared');
    expect(word(5150)).toContain('pass');
    expect(word(5150.000001)).toBe('not-judged: 5.15 km, 3.00 % over the 5 km declared');
    expect(word(4849)).toBe('not-judged: 4.849 km, 3.02 % under the 5 km declared');
    expect(word(115, { elements: path(100) })).toContain('pass');
    expect(word(116, { elements: path(100) })).toContain('not-judged');
    const unknown = [...path(), { ...stretch(0), deliberate: true } as PathElement, mated()];
    expect(word(5000, { elements: unknown })).toBe(
      'not-judged: the plan does not say how long it is',
    );
    expect(word(5000, {}, { work: work() })).toBe('stale: cleaned on ten, after it was measured');
  });

  it('that differs is told with the shorter of both', () => {
    const cells = [long(4000), long(6000, { fibre: 2 })];
    expect(judged({ lengths: cells }).doubts).toEqual([
      {
        name: 'length-differs',
        place: cells[0]?.place,
        details: { fibre: 1, length: 4000, declared: 5000, percent: -20, shorter: 4000 },
      },
      {
        name: 'length-differs',
        place: cells[1]?.place,
        details: { fibre: 2, length: 6000, declared: 5000, percent: 20, shorter: 5000 },
      },
    ]);
    expect(judged({ lengths: [long(4000)], work: work() }).doubts).toMatchObject([
      { name: 'evidence-aged', details: { events: 0, faces: 0, lengths: 1 } },
    ]);
  });

  it('is converted by the index that was set', () => {
    const glass: FibreType = { ...fibre, index: [{ wavelength: nm(1550), value: 1.468 }] } as never;
    const elements = [mated(), { ...stretch(8100), fibre: glass } as PathElement, mated()];
    const using = setup({ index: [{ wavelength: nm(1550), value: 1.46 }] as never });
    const cells = [long(8150, { wavelength: nm(1550) }), long(8150, { fibre: 2 })];
    expect(judged({ lengths: cells }, { elements, using }).doubts).toEqual([
      {
        name: 'index-converted',
        place: cells[0]?.place,
        details: {
          fibre: 1,
          lengths: 2,
          set: 1.46,
          glass: 1.468,
          shown: 8150,
          // 8150 · 1.46 ÷ 1.468.
          length: 8105.585831,
          wavelength: 1550,
        },
      },
    ]);
  });

  it('that stands is the last, in order of time', () => {
    const stands = (...cells: readonly LengthCell[]) =>
      judged({ lengths: cells }).lengths.map(({ length }) => length);
    expect(stands(long(5000, { at: when(400) }), long(5010))).toEqual([metres(5010)]);
    expect(stands(long(5010), long(5000, { at: when(400) }))).toEqual([metres(5010)]);
    expect(stands(long(5010), long(5000))).toEqual([metres(5000)]);
    expect(stands(long(5010, { fibre: 2 }), long(5000)).length).toBe(2);
  });
});

describe('what a contract requires', () => {
  const asked = (
    kind: 'events' | 'inspection' | 'length' | 'seen',
    more: Parameters<typeof judged>[1] = {},
    also: Partial<Evidence> = {},
  ) => {
    const required: Requirement = { kind, place: place() };
    const { terms, ...rest } = more;
    const { doubts, link: model } = judged(also, {
      ...rest,
      terms: { ...terms, require: [required] },
    });
    return doubts
      .filter(({ related }) =>
        related?.some(
          ({ place: at, message }) => at === required.place && message === 'what asks for it',
        ),
      )
      .map(({ name, place: at, details }) => {
        expect(at).toBe(model.namePlace);
        return { name, ...details };
      });
  };

  it('is listed by key while it is missing, six in words', () => {
    expect(asked('inspection')).toEqual([
      {
        name: 'inspection-missing',
        missing: 4,
        fibres: '1..2',
        list: 'fibre 1, end A; fibre 1, end B; fibre 2, end A; fibre 2, end B',
        more: 0,
      },
    ]);
    expect(asked('length', { fibres: 8 })).toEqual([
      {
        name: 'length-unmeasured',
        missing: 8,
        fibres: '1..8',
        list: 'fibre 1; fibre 2; fibre 3; fibre 4; fibre 5; fibre 6',
        more: 2,
      },
    ]);
    expect(asked('seen', { model: { dead: [{ fibre: 1, because: 'crushed' }] } })).toEqual([
      { name: 'port-unseen', missing: 1, fibres: '2', list: 'fibre 2', more: 0 },
    ]);
    expect(asked('events', { terms: { measure: [nm(850)] } })).toEqual([
      {
        name: 'trace-missing',
        missing: 2,
        fibres: '1..2',
        list: 'fibre 1, 850 nm A>B; fibre 2, 850 nm A>B',
        more: 0,
      },
    ]);
    // For their average splices are seen both ways.
    const spliced = {
      terms: { measure: [nm(850)] },
      elements: [...path(10), welded(), stretch(10), mated()],
      fibres: 1,
    };
    expect(asked('events', spliced)).toMatchObject([
      { missing: 2, list: 'fibre 1, 850 nm A>B; fibre 1, 850 nm B>A' },
    ]);
  });
});

describe('reflectance at the end of a fibre', () => {
  const set = limitsSet('SET', 0.75, 3, {
    returnLoss: [{ connector: 'PAIR', min: db(45), place: place() }],
  });
  const reading = (value: number | undefined, more: Partial<ReadingCell> = {}): ReadingCell => ({
    ...cell(1, 1, 'A>B', 500),
    quantity: 'reflectance',
    loss: undefined,
    ...(value !== undefined && { reflectance: db(value) }),
    ...more,
  });
  const of = (
    readings: readonly ReadingCell[],
    limits = [set],
    also: Partial<Evidence> = {},
    elements = path(100),
  ) => judged({ readings, ...also }, { terms: { limits }, elements });
  const first = (...asked: Parameters<typeof of>) => {
    const { verdict, because, reason, margin } = of(...asked).reflectances[0] ?? {};
    return [verdict, because, reason, margin === undefined ? undefined : Number(margin) / 1e15];
  };

  it('is held to the return loss that is asked, exactly', () => {
    expect(first([reading(-48)])).toEqual([
      'pass',
      'return loss 48.00 dB of 45.00 dB at least, at end A',
      undefined,
      3,
    ]);
    expect(first([reading(-45)])[0]).toBe('pass');
    expect(first([reading(-44.999999)])[0]).toBe('fail');
    const low = reading(-44, { direction: 'B>A' });
    expect(of([low]).doubts.filter(({ name }) => name === 'return-loss-low')).toEqual([
      {
        name: 'return-loss-low',
        place: low.place,
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'B>A',
          value: -44,
          because: 'return loss 44.00 dB of 45.00 dB at least, at end B',
          part: 'the connector at end B',
          limit: 45,
          limitName: 'SET',
          over: 1,
        },
      },
    ]);
  });

  it('is void or not judged, and says why', () => {
    expect(first([reading(48)])).toEqual([
      'invalid',
      'a reflectance is negative: 48.00 dB is a return loss, and is written as −48.00 dB',
      'reflectance-positive',
      undefined,
    ]);
    expect(first([reading(-48, { setup: '' })]).slice(0, 3)).toEqual([
      'invalid',
      'no set-up is named',
      'setup-unknown',
    ]);
    expect(first([reading(-48, { setup: 'TWO' })])[1]).toBe('there is no set-up TWO');
    expect(first([reading(undefined)]).slice(0, 3)).toEqual([
      'not-judged',
      'no value could be read',
      'value-missing',
    ]);
    const { direction: _, ...aimless } = reading(-48);
    expect(first([aimless as ReadingCell]).slice(0, 3)).toEqual([
      'not-judged',
      'which end it is of is not said',
      'no-direction',
    ]);
    expect(first([reading(-48)], [])).toEqual([
      'not-judged',
      'no return loss is asked of pair PAIR at end A',
      'no-limit',
      undefined,
    ]);
    expect(first([reading(-48)], [set], {}, [stretch(10), mated()])[1]).toBe(
      'no connector stands at end A',
    );
    expect(first([reading(-48)], [set], { work: work() }).slice(0, 3)).toEqual([
      'stale',
      'cleaned on ten, after it was measured',
      'work',
    ]);
    expect(first([reading(0)])[0]).toBe('fail');
  });

  it('stands as the last that is good', () => {
    const stands = (readings: readonly ReadingCell[], also: Partial<Evidence> = {}) =>
      of(readings, [set], also).reflectances.map(
        ({ current, attempt }) => `${attempt}${current ? ' stands' : ''}`,
      );
    const later = { at: when(600) };
    expect(stands([reading(-48), reading(-50, later)])).toEqual(['1', '2 stands']);
    expect(stands([reading(-50, later), reading(-48)])).toEqual(['2 stands', '1']);
    expect(stands([reading(-48), reading(50, later)])).toEqual(['1 stands', '2']);
    expect(stands([reading(48), reading(50, later)])).toEqual(['1', '2 stands']);
    const withdrawals = [
      { object: 'KQ-1', because: 'slip', by: 'R. Vale', tested: when(600, 600), place: place() },
    ];
    expect(stands([reading(-48), reading(-50, later)], { withdrawals })).toEqual(['1 stands', '2']);
    expect(of([reading(-50, later)], [set], { withdrawals }).reflectances[0]).toMatchObject({
      verdict: 'invalid',
      because: 'withdrawn by R. Vale: slip',
      reason: 'withdrawn',
      current: false,
    });
  });
});

describe('a line that channels share', () => {
  const trunk: LinkModel = { ...link(path(), {}, 4), name: 'KQ-1' };
  const crossing = (fibres: readonly number[], of = trunk): PathElement => ({
    kind: 'link',
    name: of.name,
    link: of,
    turned: false,
    fibres,
    place: place(),
  });
  const channel = (
    name: string,
    wavelength: number | undefined,
    ...elements: readonly PathElement[]
  ): LinkModel => ({
    ...link(elements, {}, 2),
    kind: 'channel',
    name,
    ...(wavelength !== undefined && { wavelength: nm(wavelength) }),
  });
  const told = (of: LinkModel, ...channels: readonly LinkModel[]) =>
    evaluate({ ...of, terms: { ...of.terms, measure: [] } }, evidence(), undefined, settings(), {
      channels,
    }).doubts.filter(({ name }) => name === 'wavelength-shared');

  it('has another wavelength for each of them', () => {
    const [one, two] = [
      channel('CH-1', 1551, crossing([1, 2])),
      channel('CH-2', 1551, crossing([2, 3])),
    ];
    expect(told(trunk, one, two)).toEqual([
      {
        name: 'wavelength-shared',
        place: two.path[0]?.place,
        related: [{ place: one.namePlace, message: 'CH-1 takes them too' }],
        details: { channel: 'CH-2', other: 'CH-1', link: 'KQ-1', fibre: 2, wavelength: 1551 },
      },
    ]);
    expect(told(trunk, one, channel('CH-2', 1531, crossing([2, 3])))).toEqual([]);
    expect(told(trunk, one, channel('CH-2', 1551, crossing([3, 4])))).toEqual([]);
    const unsaid = told(trunk, one, channel('CH-2', undefined, crossing([1, 2])))[0]?.details;
    expect(unsaid).toEqual({
      channel: 'CH-2',
      other: 'CH-1',
      link: 'KQ-1',
      fibre: 1,
      unsaid: 'CH-2',
    });
    expect(
      told(trunk, channel('CH-1', undefined, crossing([1, 2])), two)[0]?.details,
    ).toMatchObject({ unsaid: 'CH-1' });
    expect(
      told(
        trunk,
        channel('CH-1', undefined, crossing([1, 2])),
        channel('CH-2', undefined, crossing([1, 2])),
      )[0]?.details,
    ).toMatchObject({ unsaid: 'CH-2' });
    expect(told(trunk, one, two, channel('CH-3', 1551, crossing([2, 3]))).length).toBe(3);
  });

  it('is told at the first link that they share', () => {
    const other: LinkModel = { ...trunk, name: 'KQ-2' };
    const both = (name: string) => channel(name, 1551, crossing([1, 2]), crossing([1, 2], other));
    expect(told(trunk, both('CH-1'), both('CH-2')).length).toBe(1);
    expect(told(other, both('CH-1'), both('CH-2'))).toEqual([]);
  });

  it('goes through the port of its wavelength', () => {
    const type = (...wavelengths: readonly (number | undefined)[]): ComponentType =>
      ({
        ...{
          place: place(),
          namePlace: place(),
          origin: 'plan',
          basis: [],
          notes: [],
          shares: [],
          returnLoss: [],
        },
        kind: 'component',
        name: 'MUX',
        loss: wavelengths.map((wavelength) => ({
          max: db(1),
          ...(wavelength !== undefined && { wavelength: nm(wavelength) }),
        })),
      }) as ComponentType;
    const mux = (of: ComponentType | undefined, port?: string): PathElement => ({
      kind: 'component',
      name: 'MUX',
      ...(of && { type: of }),
      ...(port !== undefined && { port }),
      place: place(),
    });
    const asked = (
      element: PathElement,
      wavelength: number | undefined = 1551,
      kind: LinkModel['kind'] = 'channel',
    ) =>
      evaluate(
        { ...channel('CH-1', wavelength, element), kind, terms: { ...trunk.terms, measure: [] } },
        evidence(),
      ).doubts.filter(({ name }) => name === 'component-figure-missing');
    const wrong = mux(type(1531, 1531, 1511), '1531');
    expect(asked(wrong)).toEqual([
      {
        name: 'component-figure-missing',
        place: wrong.place,
        details: {
          channel: 'CH-1',
          component: 'MUX',
          port: '1531',
          wavelength: 1551,
          has: '1531 nm, 1511 nm',
        },
      },
    ]);
    expect(asked(mux(type(1531)))[0]?.details).not.toHaveProperty('port');
    expect(asked(mux(type(1531, 1551)))).toEqual([]);
    expect(asked(mux(type(1531, undefined)))).toEqual([]);
    expect(asked(mux(type()))).toEqual([]);
    expect(asked(mux(undefined))).toEqual([]);
    expect(
      evaluate({ ...channel('CH-1', undefined, wrong) }, evidence()).doubts.map(({ name }) => name),
    ).not.toContain('component-figure-missing');
    expect(asked(wrong, 1551, 'link')).toEqual([]);
  });
});

describe('a sum that cannot be built', () => {
  const set = setFigures(limitsSet('SET', 0.75, 3, { splice: [] }), nm(850), 'multimode');
  const because = (...pieces: readonly Piece[]) => {
    const sum = wholeSum(pieces, set, 'A>B', nm(850));
    return 'because' in sum ? sum.because : Number(sum.value) / 1e15;
  };
  const split = (out?: number, loss: readonly object[] = []): Piece =>
    ({
      kind: 'split',
      name: 'FOURTH',
      ...(out !== undefined && { out }),
      type: { name: 'FOURTH', loss, place: place() },
      place: place(),
    }) as never;
  const part = (joins?: readonly [string, string], loss: readonly object[] = []): Piece =>
    ({
      kind: 'part',
      name: 'PAD',
      type: { name: 'PAD', loss, place: place() },
      ...(joins && { joins }),
      place: place(),
    }) as never;

  it('says what it lacks, the first of several', () => {
    expect(because(split())).toBe('light is divided at FOURTH');
    expect(because(split(2))).toBe('SET has no figure for output 2 of FOURTH at 850 nm');
    expect(because(split(2, [{ max: db(7) }]))).toBe(7);
    expect(because(part())).toBe('SET has no figure for part PAD');
    expect(because(part(undefined, [{ wavelength: nm(1310), max: db(1) }]))).toBe(
      'SET has no figure for part PAD at 850 nm',
    );
    expect(because(part(['LC', 'SC']))).toBe(1.5);
    expect(because({ kind: 'splice', name: 'WELD', place: place() })).toBe(
      'SET has no figure for splice WELD',
    );
    const pieces = flatten(
      link([
        { ...stretch(1), length: undefined } as PathElement,
        { ...stretch(1), fibreName: 'X', fibre: undefined } as PathElement,
      ]),
    ).pieces;
    expect(because(...pieces)).toBe('a length of GLASS is missing');
    expect(because(...pieces.slice(1))).toBe('SET has no figure for fibre X at 850 nm');
    expect(
      because(
        ...flatten(link([{ ...stretch(0), fibreName: 'X', fibre: undefined } as PathElement]))
          .pieces,
      ),
    ).toBe(0);
  });

  it('of a reading names the ends', () => {
    const bare = setFigures(limitsSet('BARE', 0.75, 3, { connector: [] }), nm(850), 'multimode');
    const anonymous: PathElement = { kind: 'connector', name: 'PAIR', place: place() };
    const of = (elements: readonly PathElement[], method: 'one-cord' | 'two-cord' = 'one-cord') => {
      const sum = readingSum(
        flatten(link(elements)),
        plannedArrangement(method),
        bare,
        'counting',
        'A>B',
        nm(850),
      );
      return 'because' in sum ? sum.because : undefined;
    };
    expect(of([anonymous, stretch(1), anonymous])).toBe('BARE has no figure for end pair PAIR');
    const cord = { ...stretch(3), kind: 'cord' } as unknown as PathElement;
    expect(of([cord])).toBe('BARE has no figure for end pair');
    expect(of([])).toBe('nothing that loses light lies in it');
    const gone: PathElement = { kind: 'link', name: 'KQ-9', turned: false, place: place() };
    expect(of([gone, ...path(1)])).toBe('KQ-9 is not known');
  });
});

describe('of one reading more', () => {
  it('an absence is of its own fibre, light and direction', () => {
    const absent = (more: object) => [
      {
        object: 'KQ-1',
        fibre: 1,
        wavelength: nm(850),
        remark: 'door locked',
        place: place(),
        ...more,
      },
    ];
    const because = (absences: readonly object[]) =>
      judged({ absences } as never, { terms: { measure: [nm(850)] }, fibres: 1 }).readings[0]
        ?.because;
    expect(because(absent({}))).toBe('not read: door locked');
    expect(because(absent({ direction: 'A>B' }))).toBe('not read: door locked');
    expect(because(absent({ direction: 'B>A' }))).toBe('');
    expect(because(absent({ fibre: 2 }))).toBe('');
    expect(because(absent({ wavelength: nm(1300) }))).toBe('');
  });

  it('each array of a trunk is a joint of its own', () => {
    const array: PathElement = {
      kind: 'connector',
      name: 'MPO',
      type: { ...connector, positions: 4 },
      place: place(),
    };
    const readings = Array.from({ length: 8 }, (_, at) => cell(at + 1, 1, 'A>B', 500));
    const verdicts = (fibres: readonly number[]) =>
      judged(
        { readings, work: work(fibres) },
        { elements: [array, stretch(100), array], fibres: 8, terms: { measure: [nm(850)] } },
      ).fibres.flatMap(({ fibre: number, verdict }) => (verdict === 'stale' ? [number] : []));
    expect(verdicts([6])).toEqual([5, 6, 7, 8]);
    expect(verdicts([1])).toEqual([1, 2, 3, 4]);
    expect(verdicts([9])).toEqual([]);
  });

  it('of few readings their mean is handed on', () => {
    const typical = { ...connector, loss: [{ typ: db(0.3), max: db(0.75) }] };
    const glass = {
      ...fibre,
      attenuation: [{ wavelength: nm(850), typ: 2_500_000, max: 3_000_000 }],
    } as unknown as FibreType;
    const pair: PathElement = { kind: 'connector', name: 'PAIR', type: typical, place: place() };
    const elements = [pair, { ...stretch(100), fibre: glass } as PathElement, pair];
    const readings = [cell(1, 1.1, 'A>B', 500), cell(2, 1.3, 'A>B', 501)];
    const [few, ...more] = judged({ readings }, { elements, terms: { measure: [nm(850)] } }).few;
    expect(more).toEqual([]);
    // As a rule 0.25 + 0.6 dB, and at most 0.3 + 0.025 dB more.
    expect(few).toMatchObject({
      object: 'KQ-1',
      setup: 'ONE',
      wavelength: nm(850),
      readings: 2,
      place: readings[0]?.place,
    });
    expect(few?.away).toBeCloseTo(0.35, 9);
    expect(few?.excess).toBeCloseTo(0.025, 9);
  });

  it('after a repair, both what it rose by and what was put in are told', () => {
    const put = {
      name: 'REP-1',
      fibres: [1],
      on: when(550),
      path: [welded(), stretch(100), welded()],
      place: place(),
    };
    const readings = [cell(1, 1, 'A>B', 500), cell(1, 2.2, 'A>B', 600)];
    const { doubts, readings: results } = judged(
      { readings },
      { elements: path(500), model: { repairs: [put] }, fibres: 1, terms: { measure: [nm(850)] } },
    );
    // Two splices of 0.3 dB and 0.3 dB of fibre are 0.9 dB; it rose by 1.2 dB.
    const because = '1.20 dB more than before repair REP-1, and what was put in allows 0.90 dB';
    expect(results[1]).toMatchObject({
      verdict: 'fail',
      because,
      reason: 'rise-after-repair',
      margin: exactDb(db(-0.3)),
    });
    expect(results[1]?.limit).toMatchObject({
      kind: 'components',
      name: 'reading before repair REP-1 and what was put in',
      value: exactDb(db(1.9)),
      floor: db(1.9),
      beside: false,
      recalled: false,
    });
    expect(
      results[1]?.limit?.terms.map(({ what, total, source }) => [
        what,
        Number(total) / 1e15,
        source,
      ]),
    ).toEqual([
      ['reading of minute 500', 1, 'the last valid one before repair REP-1'],
      ['splices', 0.6, 'SET, splice any'],
      ['fibre GLASS', 0.3, 'SET, fibre GLASS at 850 nm'],
    ]);
    expect(doubts.filter(({ name }) => name === 'rise-after-repair')).toMatchObject([
      {
        place: readings[1]?.place,
        details: { rise: 1.2, allowed: 0.9, before: 1, repairs: 'repair REP-1', over: 0.3 },
      },
    ]);
  });
});
