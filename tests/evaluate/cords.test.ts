/**
 * Test cords: which are in force, which belong to the reference, when they are
 * proven and when they fit. A check of a reference-grade pair may read 0.10 dB on
 * multimode (ISO/IEC 14763-3, from memory); the number of cords in a reference and
 * the ends they mate with are those of IEC 61280-4-1 and -4-2.
 */
import { describe, expect, it } from 'vitest';
import {
  type CordQuestion,
  cordFault,
  cordsAt,
  pairFigure,
  rolesInReference,
} from '../../server/src/evaluate/cords.ts';
import { flatten } from '../../server/src/evaluate/path.ts';
import type {
  ConnectorType,
  FibreType,
  PathElement,
  Setup,
  SetupEvent,
  Terms,
  TestCord,
} from '../../server/src/model/types.ts';
import {
  connector,
  db,
  fibre,
  limitsSet,
  link,
  mated,
  nm,
  place,
  setup,
  stretch,
  welded,
  when,
} from '../support/build.ts';

const using = setup({ referencePlace: place() });
const [launch, receive] = using.cords as [TestCord, TestCord];
const withCords = (...cords: readonly TestCord[]): Setup => ({ ...using, cords });
const verified = (cord: string, loss: number, minute = 500): SetupEvent => ({
  kind: 'verified',
  at: when(minute),
  cord,
  loss: db(loss),
  place: place(),
});

const plug: PathElement = { kind: 'plug', name: 'PAIR', type: connector, place: place() };

/** What is wrong with the cords of a set-up on a path of two pairs; of one, whose far plug goes into the meter, where it is direct. */
function fault(
  of: Setup,
  {
    terms,
    path = [mated(), stretch(100), of.direct ? plug : mated()],
    ...more
  }: { terms?: Partial<Terms>; path?: readonly PathElement[] } & Partial<
    Omit<CordQuestion, 'path'>
  > = {},
) {
  const model = link(path, terms);
  return cordFault({
    setup: of,
    link: model,
    path: flatten(model),
    cords: cordsAt(of, 600),
    direction: 'A>B',
    wavelength: nm(850),
    gradeNeeded: false,
    ...more,
  });
}

describe('cords in force', () => {
  const since = (name: string, minute: number | undefined, role: TestCord['role'] = 'launch') => ({
    ...launch,
    name,
    role,
    since: minute === undefined ? undefined : when(minute),
  });
  const at = (minute: number, ...cords: readonly TestCord[]) =>
    [...cordsAt(withCords(...cords), minute)].map(([role, cord]) => `${role} ${cord.name}`);

  it('are the last of each role that is there by then', () => {
    const cords = [since('OLD', undefined), since('NEW', 500)];
    for (const given of [cords, cords.toReversed()]) {
      expect(at(499, ...given)).toEqual(['launch OLD']);
      expect(at(500, ...given)).toEqual(['launch NEW']);
    }
    const three = [since('OLD', undefined), since('LAST', 700), since('NEW', 500)];
    expect(at(699, ...three)).toEqual(['launch NEW']);
    expect(at(700, ...three)).toEqual(['launch LAST']);
    expect(at(100, since('NEW', 500))).toEqual([]);
  });

  it('that began at one and the same time, or never, are the ones written last', () => {
    expect(at(600, since('A', undefined), since('B', undefined))).toEqual(['launch B']);
    expect(at(600, since('A', 500), since('B', 500))).toEqual(['launch B']);
  });

  it('of one role leave those of another alone', () => {
    expect(at(600, since('L', undefined), since('R', 500, 'receive'))).toEqual([
      'launch L',
      'receive R',
    ]);
  });

  it('belong to the reference by its method', () => {
    const roles = (reference: Setup['reference']) => rolesInReference({ ...using, reference });
    expect(roles('one-cord')).toEqual(['launch']);
    expect(roles('two-cord')).toEqual(['launch', 'receive']);
    expect(roles('three-cord')).toEqual(['launch', 'receive']);
    expect(roles('equipment-cord')).toEqual([]);
    expect(roles(undefined)).toEqual([]);
  });
});

describe('what a check may read', () => {
  const figure = (cord: Partial<TestCord>, terms: Partial<Terms>) =>
    pairFigure({ ...receive, ...cord }, link([mated()], terms), nm(850));
  const none = limitsSet('NONE', 0, 3, { connector: [] });

  it('is the figure of its declared grade in the first set that has one', () => {
    const sets = { limits: [limitsSet('SET', 0.75, 3)] };
    expect(figure({}, sets)).toBe(db(0.1));
    expect(figure({ grade: 'ordinary' }, sets)).toBe(db(0.75));
    expect(figure({ grade: undefined }, sets)).toBe(db(0.75));
    expect(figure({}, { limits: [none, limitsSet('SET', 0.5, 3)] })).toBe(db(0.1));
    expect(figure({}, { limits: [none], compare: [limitsSet('SET', 0.5, 3)] })).toBe(db(0.1));
  });

  it('is that of the kind itself where no set has one', () => {
    expect(figure({}, { limits: [none] })).toBe(db(0.75));
    expect(figure({ connectorType: undefined }, { limits: [none] })).toBeUndefined();
    const typical: ConnectorType = { ...connector, loss: [{ typ: db(0.2) }] };
    expect(figure({ connectorType: typical }, { limits: [none] })).toBeUndefined();
  });
});

describe('a receive cord after the reference', () => {
  it('has to be there', () => {
    expect(fault(withCords(launch))).toEqual({
      name: 'receive-cord-missing',
      because: 'set-up ONE has no receive cord, so the far pair is not in the reading',
      details: { setup: 'ONE' },
      related: [{ place: using.referencePlace, message: 'set-up ONE' }],
    });
    const silent = { ...withCords(launch), referencePlace: undefined };
    expect(fault(silent)?.related).toEqual([{ place: using.place, message: 'set-up ONE' }]);
    expect(fault({ ...withCords(launch), direct: true })).toBeUndefined();
    // Without one a plug has to be there that goes into the meter, where the light comes out.
    const direct = { ...withCords(launch), direct: true };
    const sockets = [mated(), stretch(100), mated()];
    expect(fault(direct, { path: sockets })).toMatchObject({
      name: 'receive-cord-missing',
      because:
        'set-up ONE says that the far plug goes into the meter, and KQ-1 ends in a socket at B',
      details: { setup: 'ONE', end: 'B' },
    });
    const back = { direction: 'B>A' } as const;
    expect(fault(direct, back)?.details).toMatchObject({ end: 'A' });
    expect(fault(direct, { ...back, path: [plug, stretch(100), mated()] })).toBeUndefined();
    for (const reference of ['two-cord', 'three-cord', 'equipment-cord'] as const) {
      expect(fault({ ...withCords(launch), reference })?.name).not.toBe('receive-cord-missing');
    }
    expect(fault({ ...withCords(launch), reference: undefined })).toBeUndefined();
  });

  it('has to be checked, by itself or later on', () => {
    const bare = withCords(launch, { ...receive, verified: undefined });
    const related = [{ place: receive.place, message: 'R in set-up ONE' }];
    expect(fault(bare)).toEqual({
      name: 'cord-not-verified',
      because: 'R has no check in set-up ONE',
      details: { setup: 'ONE', cord: 'R', role: 'receive', figure: 0.1 },
      related,
    });
    const unheard = { ...receive, verified: undefined, connectorType: undefined };
    const terms = { limits: [limitsSet('NONE', 0, 3, { connector: [] })] };
    expect(fault(withCords(launch, unheard), { terms })).toEqual({
      name: 'cord-not-verified',
      because: 'R has no check in set-up ONE',
      details: { setup: 'ONE', cord: 'R', role: 'receive' },
      related,
    });
    // Without a figure any check is good.
    const checked = withCords(launch, { ...unheard, verified: db(3) });
    expect(fault(checked, { terms })).toBeUndefined();
    expect(fault({ ...bare, events: [...bare.events, verified('L', 0.05)] })?.name).toBe(
      'cord-not-verified',
    );
    expect(fault({ ...bare, events: [...bare.events, verified('R', 0.05)] })).toBeUndefined();
  });

  it('has to read no more than its grade allows, the last time it was checked', () => {
    const over = withCords(launch, { ...receive, verified: db(0.100001) });
    expect(fault(over)).toEqual({
      name: 'cord-out-of-spec',
      because: 'the check of R, 0.100001 dB, is over the 0.10 dB of its grade',
      details: { setup: 'ONE', cord: 'R', role: 'receive', check: 0.100001, figure: 0.1 },
      related: [{ place: receive.place, message: 'R in set-up ONE' }],
    });
    expect(fault(withCords(launch, { ...receive, verified: db(0.1) }))).toBeUndefined();
    const later = (...losses: readonly number[]) =>
      fault({ ...over, events: losses.map((loss) => verified('R', loss)) })?.details;
    expect(later(0.3, 0.09)).toBeUndefined();
    expect(later(0.09, 0.3)).toMatchObject({ check: 0.3 });
  });

  it('proves itself only where it was added', () => {
    const bare = (more: Partial<Setup>) => ({
      ...withCords(launch, { ...receive, verified: undefined }),
      ...more,
    });
    expect(fault(bare({ direct: true }))).toBeUndefined();
    expect(fault(bare({ reference: 'equipment-cord' }))).toBeUndefined();
    expect(fault(bare({ reference: 'three-cord' }))).toBeUndefined();
    expect(fault(bare({ reference: 'three-cord' }), { gradeNeeded: true })?.name).toBe(
      'cord-not-verified',
    );
  });
});

describe('the grade of what mates', () => {
  const graded = (grade: TestCord['grade'], more: Partial<Setup> = {}): Setup => ({
    ...withCords({ ...launch, grade }, { ...receive, grade }),
    ...more,
  });
  const related = [{ place: using.referencePlace, message: 'set-up ONE' }];

  it('has to be said where a limit depends on it, and wherever cords mate in the reference', () => {
    const unsaid =
      'the grade of the test cords of set-up ONE is not said, and the limit depends on it';
    expect(fault(graded(undefined), { gradeNeeded: true })).toEqual({
      name: 'cord-grade-missing',
      because: unsaid,
      details: { setup: 'ONE', method: 'one-cord', grade: 'not said' },
      related,
    });
    expect(fault(graded(undefined))).toBeUndefined();
    for (const reference of ['two-cord', 'three-cord'] as const) {
      expect(fault(graded(undefined, { reference }))).toMatchObject({
        because: unsaid,
        details: { method: reference },
      });
    }
  });

  it('has to be reference-grade where the limit grants such pairs', () => {
    expect(fault(graded('ordinary'), { gradeNeeded: true })).toEqual({
      name: 'cord-grade-missing',
      because: 'the limit grants reference-grade pairs, and the cords of set-up ONE are ordinary',
      details: { setup: 'ONE', method: 'one-cord', grade: 'ordinary' },
      related,
    });
    expect(fault(graded('ordinary', { reference: 'two-cord' }))).toBeUndefined();
    expect(fault(graded('reference-grade'), { gradeNeeded: true })).toBeUndefined();
  });

  it('is proven by a check of either cord', () => {
    const two = (
      a: number | undefined,
      b: number | undefined,
      more: Partial<Setup> = {},
    ): Setup => ({
      ...withCords(
        { ...launch, verified: a === undefined ? undefined : db(a) },
        { ...receive, verified: b === undefined ? undefined : db(b) },
      ),
      reference: 'two-cord',
      ...more,
    });
    const needed = { gradeNeeded: true };
    expect(fault(two(undefined, 0.09), needed)).toBeUndefined();
    expect(fault(two(0.09, undefined), needed)).toBeUndefined();
    expect(fault(two(undefined, undefined), needed)?.details).toMatchObject({ cord: 'R' });
    // The receive cord is asked first.
    expect(fault(two(0.3, 0.09), needed)).toBeUndefined();
    expect(fault(two(0.09, 0.3), needed)?.details).toMatchObject({ cord: 'R', check: 0.3 });
    expect(fault(two(0.3, undefined), needed)?.details).toMatchObject({ cord: 'L', check: 0.3 });
    const alone = { ...two(undefined, undefined), cords: [launch] };
    expect(fault(alone, needed)?.details).toMatchObject({ cord: 'L', role: 'launch' });
    const direct = { ...two(undefined, undefined, { reference: 'one-cord', direct: true }) };
    expect(fault(direct, needed)).toBeUndefined();
  });
});

describe('what a cord mates with', () => {
  const glass = (name: string, more: Partial<FibreType>): FibreType => ({
    ...fibre,
    name,
    ...more,
  });
  const wide = glass('WIDE', { core: nm(62_500) });
  const single = glass('FINE', { mode: 'single-mode', core: nm(9_000) });
  const of = (type: FibreType): PathElement =>
    ({ ...stretch(50), fibre: type, fibreName: type.name }) as PathElement;

  it('is fibre of its own core and mode', () => {
    const wrong = withCords({ ...launch, fibre: 'WIDE', fibreType: wide }, receive);
    expect(fault(wrong)).toEqual({
      name: 'cord-fibre-mismatch',
      because: 'test cord L is WIDE and the fibre it mates with GLASS',
      details: { setup: 'ONE', cord: 'L', role: 'launch', cordFibre: 'WIDE', pathFibre: 'GLASS' },
      related: [{ place: launch.place, message: 'L, WIDE' }],
    });
    const far = withCords(launch, { ...receive, fibre: 'FINE', fibreType: single });
    expect(fault(far)?.details).toMatchObject({ cord: 'R', role: 'receive', cordFibre: 'FINE' });
    expect(fault({ ...far, direct: true })).toBeUndefined();
    const modeOnly = glass('MODE', { mode: 'single-mode', core: undefined });
    expect(fault(withCords({ ...launch, fibreType: modeOnly }, receive))?.name).toBe(
      'cord-fibre-mismatch',
    );
    const unsaid = glass('UNSAID', { mode: undefined as never, core: undefined });
    expect(fault(withCords({ ...launch, fibreType: unsaid }, receive))).toBeUndefined();
    expect(fault(withCords({ ...launch, fibreType: undefined }, receive))).toBeUndefined();
    expect(fault(wrong, { path: [mated(), of(unsaid), mated()] })).toBeUndefined();
    expect(fault(wrong, { path: [mated(), welded(), mated()] })).toBeUndefined();
  });

  it('is the end it stands at, by the direction of the light', () => {
    const path = [mated(), of(wide), mated(), stretch(50), mated()];
    const cords = withCords({ ...launch, fibre: 'WIDE', fibreType: wide }, receive);
    expect(fault(cords, { path })).toBeUndefined();
    expect(fault(cords, { path, direction: undefined })).toBeUndefined();
    expect(fault(cords, { path, direction: 'B>A' })?.details).toMatchObject({
      cordFibre: 'WIDE',
      pathFibre: 'GLASS',
    });
  });

  it('is a face of its own polish, angled or not', () => {
    const polished = (polish: ConnectorType['polish']): ConnectorType => ({ ...connector, polish });
    const pair = (type: ConnectorType): PathElement => ({
      kind: 'connector',
      name: 'PAIR',
      type,
      place: place(),
    });
    const plug = (type: ConnectorType): PathElement => ({
      kind: 'plug',
      name: 'PAIR',
      type,
      place: place(),
    });
    const asked = (mine: ConnectorType['polish'], theirs: PathElement, more = {}) =>
      fault(withCords({ ...launch, connectorType: polished(mine) }, receive), {
        path: [theirs, stretch(50), mated()],
        ...more,
      });
    const apc = pair(polished('APC'));
    expect(asked('UPC', apc)).toEqual({
      name: 'cord-polish-mismatch',
      because: 'test cord L is polished UPC and the end it mates with APC',
      details: { setup: 'ONE', cord: 'L', role: 'launch', polish: 'UPC', port: 'APC' },
      related: [{ place: launch.place, message: 'L, GLASS' }],
    });
    expect(asked('APC', plug(polished('UPC')))?.details).toMatchObject({
      polish: 'APC',
      port: 'UPC',
    });
    expect(asked('PC', pair(polished('UPC')))).toBeUndefined();
    expect(asked('APC', apc)).toBeUndefined();
    expect(asked(undefined, apc)).toBeUndefined();
    expect(asked('APC', pair(polished(undefined)))).toBeUndefined();
    expect(asked('APC', welded())).toBeUndefined();
    expect(asked('UPC', apc, { direction: 'B>A' })).toBeUndefined();
  });

  it('comes before whether it is proven', () => {
    const both = withCords({ ...launch, fibreType: wide }, { ...receive, verified: undefined });
    expect(fault(both)?.name).toBe('cord-fibre-mismatch');
    // Cords of another role mate with nothing.
    const tail = { ...launch, name: 'T', role: 'tail' as const, fibreType: single };
    expect(fault(withCords(launch, receive, tail))).toBeUndefined();
  });
});
