/**
 * What lies outside of a link for a service, and what its limit loses by that, by the pairs
 * that a reference took and by nothing else. That a reference of n cords holds n − 1 pairs:
 * configurations of IEC 61280-4-1. Figures are ours and added up by hand.
 */
import { describe, expect, it } from 'vitest';
import { printExactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import { type Arrangement, plannedArrangement } from '../../server/src/evaluate/arrangement.ts';
import { limitsOf, outsidePieces, type ReadingLimit } from '../../server/src/evaluate/limits.ts';
import { flatten } from '../../server/src/evaluate/path.ts';
import type {
  Carried,
  ConnectorType,
  FibreType,
  LimitsSet,
  LinkModel,
  PathElement,
  PlanSettings,
  Terms,
} from '../../server/src/model/types.ts';
import {
  application,
  betweenPairs,
  carried,
  connector,
  db,
  evaluate,
  evidence,
  fibre,
  limitsSet,
  link,
  mated,
  nm,
  oneWay,
  place,
  settings,
  stretch,
} from '../support/build.ts';

const plain: FibreType = { ...fibre, name: 'PLAIN' };
const other = (length: number) =>
  ({ ...stretch(length), fibre: plain, fibreName: 'PLAIN' }) as PathElement;
const plug = (name = 'PAIR', type: ConnectorType = connector): PathElement => ({
  kind: 'plug',
  name,
  type,
  place: place(),
});
const service = (cords: readonly number[] = [], fibres?: readonly number[]): Carried => ({
  ...carried(application([{ reach: 900, loss: 2.9 }]), cords),
  ...(fibres && { fibres }),
});

describe('outside of a link', () => {
  const cord = { ...stretch(8), kind: 'cord' } as unknown as PathElement;
  const whole = (more: Partial<LinkModel> = {}): LinkModel => ({
    ...link(betweenPairs(100)),
    ...more,
  });
  const channel = (name: string, of: LinkModel, fibres?: readonly number[]): LinkModel => ({
    ...link([
      cord,
      {
        kind: 'link',
        name: of.name,
        link: of,
        turned: false,
        fibres,
        place: place(),
      } as PathElement,
    ]),
    kind: 'channel',
    name,
  });
  const outside = (of: Carried, model: LinkModel = whole(), channels: readonly LinkModel[] = []) =>
    outsidePieces(of, model, flatten(model), channels).map(({ pieces, fibres, channel: by }) => [
      pieces.map((piece) =>
        piece.kind === 'fibre'
          ? `${piece.name} ${piece.length! / 1e6} ${piece.along! / 1e6} ${piece.cord} ${piece.apart}`
          : piece.kind,
      ),
      fibres && [...fibres],
      by?.name,
    ]);

  it('lie the cords that are planned, of the fibre at their end', () => {
    const mixed = whole({ path: [mated(), stretch(60), mated(), other(40), mated()] });
    expect(outside(service([3, 2]), mixed)).toEqual([
      [['GLASS 3 3 true true', 'PLAIN 2 2 true true'], undefined, undefined],
    ]);
    expect(outside(service([3]), mixed)).toEqual([[['GLASS 3 3 true true'], undefined, undefined]]);
    expect(outside(service([3, 2], [1, 2]), mixed)[0]?.[1]).toEqual([1, 2]);
    expect(outside(service([3, 2]), whole({ path: [mated(), mated()] }))).toEqual([
      [[], undefined, undefined],
    ]);
  });

  it('lies nothing of a channel or a ring, which hold all there is', () => {
    for (const kind of ['channel', 'ring'] as const) {
      expect(outside(service([3, 2]), whole({ kind }))).toEqual([[[], undefined, undefined]]);
      expect(outside(service([3, 2], [1, 2]), whole({ kind }))).toEqual([[[], [1, 2], undefined]]);
    }
  });

  it('lies nothing for a service that no fibre takes', () => {
    expect(outside(service([3]), whole({ fibres: [] }))).toEqual([]);
    expect(outside(service([3], []))).toEqual([]);
    expect(outside(service([3], [1]), whole({ fibres: [] }))[0]?.[1]).toEqual([1]);
  });

  it('lies of each fibre what its channel has, and of the rest what is planned', () => {
    const model = whole();
    const planned = ['GLASS 3 3 true true'];
    const laid = ['GLASS 8 8 true true'];
    const [one, two] = [channel('CH-1', model, [1]), channel('CH-2', model, [2, 9])];
    expect(outside(service([3]), model, [one, two])).toEqual([
      [laid, [1], 'CH-1'],
      [laid, [2], 'CH-2'],
      [planned, [3, 4], undefined],
    ]);
    expect(outside(service([3], [2, 3]), model, [one, two])).toEqual([
      [laid, [2], 'CH-2'],
      [planned, [3], undefined],
    ]);
    expect(outside(service([3], [1, 2]), model, [one, two])).toEqual([
      [laid, [1], 'CH-1'],
      [laid, [2], 'CH-2'],
    ]);
    // A channel that says no fibres takes all, and one of another link none.
    expect(outside(service([3]), model, [channel('CH-1', model)])).toEqual([
      [laid, [1, 2, 3, 4], 'CH-1'],
    ]);
    const strange = channel('CH-3', { ...model, name: 'KQ-9' }, [1]);
    expect(outside(service([3]), model, [strange])).toEqual([[planned, undefined, undefined]]);
    expect(outside(service([3], [1, 2]), model, [strange])).toEqual([[planned, [1, 2], undefined]]);
  });
});

describe('the limit of a service', () => {
  /** Its value or why it has none, and what its terms come from. */
  const limit = (
    path: readonly PathElement[],
    method: Arrangement['method'],
    {
      terms = {},
      by = {},
      of = service(),
      more = {},
    }: {
      terms?: Partial<Terms>;
      by?: Partial<PlanSettings>;
      of?: Carried;
      more?: Partial<Arrangement>;
    } = {},
  ) => {
    const model = link(path, { carries: [of], limits: [], ...terms });
    const found = limitsOf({
      link: model,
      path: flatten(model),
      arrangement: { ...plannedArrangement(method), ...more },
      wavelength: nm(850),
      direction: 'A>B',
      settings: settings(by),
      channels: [],
    }).filter(({ kind }) => kind === 'application');
    return found.map((one) => [
      one.value === undefined ? one.because : printExactDb(one.value),
      one.recalled,
      ...one.terms.slice(1).map(({ role, count, source }) => `${role} ${count} ${source}`),
    ]);
  };
  /** Limits of 0.75 dB a pair, 0.10 dB where both plugs are of reference grade. */
  const set = (policy?: LimitsSet['policy']) => ({
    limits: [limitsSet('SET', 0.75, 3, { policy } as Partial<LimitsSet>)],
  });

  it('loses pairs by the policy of the first limits, else of the object, else of the plan', () => {
    const by = (terms: Partial<Terms>, plan?: 'counting' | 'reference-grade' | 'enhanced') =>
      limit(betweenPairs(100), 'three-cord', { terms, by: { policy: plan } })[0]?.[0];
    expect(by(set('counting'))).toBe('1.4');
    expect(by(set('reference-grade'))).toBe('2.7');
    expect(by(set('enhanced'))).toBe('2.9');
    expect(by({ ...set('counting'), policy: 'enhanced' }, 'enhanced')).toBe('1.4');
    expect(by({ ...set(), policy: 'reference-grade' }, 'enhanced')).toBe('2.7');
    expect(by(set(), 'reference-grade')).toBe('2.7');
    const two = { limits: [...set('reference-grade').limits, ...set('enhanced').limits] };
    expect(by(two)).toBe('2.7');
    // Without any limits a pair is what it states itself.
    expect(by({}, 'counting')).toBe('1.4');
  });

  it('loses none for plugs that mate with test cords alone, nor for cords of equipment', () => {
    const cords = [plug(), stretch(100), plug()];
    const terms = set('counting');
    expect(limit(cords, 'one-cord', { terms })).toEqual([['2.9', false]]);
    expect(limit(cords, 'two-cord', { terms })).toEqual([['2.9', false]]);
    expect(limit(cords, 'three-cord', { terms })).toEqual([['2.9', false]]);
    expect(limit(betweenPairs(100), 'equipment-cord', { terms })).toEqual([['2.9', false]]);
    // Direct into the meter, one end of two is not in the reading, and will be in the channel.
    const direct = { mates: { A: true, B: false } };
    expect(limit(betweenPairs(100), 'one-cord', { terms, more: direct })).toEqual([
      ['2.15', false, 'reference-pair -1 PAIR, greatest'],
    ]);
  });

  it('loses pairs of the kind that stands at an end, at whichever end one stands', () => {
    const small: ConnectorType = {
      ...connector,
      name: 'SMALL',
      loss: [{ max: db(0.2), trust: 'recalled' }],
    };
    const socket = { ...mated(), name: 'SMALL', type: small } as PathElement;
    const [from, to] = [
      [socket, stretch(100), plug()],
      [plug(), stretch(100), socket],
    ];
    const by = { policy: 'counting' as const };
    for (const path of [from!, to!]) {
      expect(limit(path, 'two-cord', { by })).toEqual([['2.9', false]]);
      expect(limit(path, 'three-cord', { by })).toEqual([
        ['2.7', true, 'reference-pair -1 SMALL, greatest'],
      ]);
    }
    // Of two kinds one of each, and of one alone the one that loses more.
    for (const path of [
      [socket, stretch(100), mated()],
      [mated(), stretch(100), socket],
    ]) {
      expect(limit(path, 'two-cord', { by })[0]?.[0]).toBe('2.15');
      expect(limit(path, 'three-cord', { by })[0]?.[0]).toBe('1.95');
    }
  });

  it('is asked at each light of the service, and stands where the service says it does', () => {
    const lights = (...at: readonly number[]) => {
      const type = application([{ reach: 900, loss: 2.9 }]);
      const wavelengths = at.map((each) => ({ wavelength: nm(each) }));
      return limit(betweenPairs(100), 'one-cord', { of: carried({ ...type, wavelengths }) }).length;
    };
    expect([lights(850), lights(1300, 850), lights(850, 1300), lights(1300), lights()]).toEqual([
      1, 1, 1, 0, 0,
    ]);
    const source = (edition?: string) => {
      const type = { ...application([{ reach: 900, loss: 2.9 }]), edition };
      const model = link(betweenPairs(100), { ...oneWay, limits: [], carries: [carried(type)] });
      const [asked] = evaluate(model, evidence()).wavelengths;
      return asked?.limits[0]?.terms[0]?.source;
    };
    expect([source(), source('clause 52')]).toEqual(['SERVICE', 'clause 52']);
  });

  it('rests on what is recalled where one of its figures does', () => {
    const recalled: FibreType = {
      ...fibre,
      attenuation: [{ wavelength: nm(850), max: ratePerKm(3_000_000), trust: 'recalled' }],
    };
    const path = [mated(), { ...stretch(100), fibre: recalled } as PathElement, mated()];
    // 2.9 − 3.0·0.005; without cords none of its figures is in the limit.
    expect(limit(path, 'one-cord', { of: service([5]) })).toEqual([
      ['2.885', true, 'outside -1 fibre GLASS at 850 nm, greatest'],
    ]);
    expect(limit(path, 'one-cord')).toEqual([['2.9', false]]);
    const row = { fibre: 'GLASS', loss: db(2.9), trust: 'recalled' as const, place: place() };
    const of = carried({ ...application([]), rows: [row] });
    expect(limit(betweenPairs(100), 'one-cord', { of })).toEqual([['2.9', true]]);
  });

  it('has no value where what lies outside has no figure', () => {
    const strange = { ...stretch(100), fibre: plain, fibreName: 'PLAIN' } as PathElement;
    const bare: FibreType = { ...plain, attenuation: [], meets: ['GLASS'] };
    const path = [mated(), { ...strange, fibre: bare } as PathElement, mated()];
    const [found] = limit(path, 'one-cord', { of: service([5]) });
    expect(found?.[0]).toContain('PLAIN');
    expect(limit(path, 'one-cord')).toEqual([['2.9', false]]);
  });

  it('is none where cords of a channel are of fibre that meets no row', () => {
    const glass = link(betweenPairs(100), { limits: [], carries: [service()] });
    const channel = (cord: PathElement): LinkModel => ({
      ...link([
        { ...cord, kind: 'cord' } as unknown as PathElement,
        { kind: 'link', name: 'KQ-1', link: glass, turned: false, fibres: [1], place: place() },
      ]),
      kind: 'channel',
      name: 'CH-1',
    });
    const holds = (cord: PathElement) =>
      (
        evaluate(glass, evidence(), undefined, settings(), { channels: [channel(cord)] })
          .wavelengths[0]?.limits as readonly ReadingLimit[] | undefined
      )?.map(({ fibres }) => [...(fibres ?? [])]);
    expect(holds(stretch(5))).toEqual([[1], [2, 3, 4]]);
    expect(holds(other(5))).toEqual([[2, 3, 4]]);
  });

  it('is that of a row its fibres meet, cords too, and that reaches along the fibre', () => {
    const rows = application([
      { reach: 104, loss: 2.9 },
      { reach: 900, loss: 2.1 },
    ]);
    const of = (cords: readonly number[]) => ({ of: carried(rows, cords) });
    expect(limit(betweenPairs(100), 'one-cord', of([]))[0]?.[0]).toBe('2.9');
    expect(limit(betweenPairs(100), 'one-cord', of([4]))[0]?.[0]).toBe('2.888');
    expect(limit(betweenPairs(100), 'one-cord', of([5]))[0]?.[0]).toBe('2.085');
    const helix = { ...stretch(100), cable: { excess: 50_000 } } as unknown as PathElement;
    expect(limit([mated(), helix, mated()], 'one-cord', of([]))[0]?.[0]).toBe('2.1');
  });
});
