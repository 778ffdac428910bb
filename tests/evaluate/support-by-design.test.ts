/**
 * Whether a path carries a service by the figures of its parts. Two pairs and 100 m lose
 * 1.8 dB at most: 3.0 dB/km at 850 nm and 0.75 dB a pair (TIA-568.3-E). That the terms of
 * a row hold together is the form of the tables of IEEE 802.3.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, printExactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { FibreType, PathElement, Terms } from '../../server/src/model/types.ts';
import { db, fibre, mated, metres, nm, place, stretch, when } from '../support/build.ts';
import { type Asked, answered, judged, row, type Segment, told } from './carried-service.ts';

describe('by design', () => {
  it('is said with its row, its light each way, and what it loses', () => {
    const { answer, carries } = judged([row(300, 2.6)]);
    const [lit] = answer?.light ?? [];
    expect(lit?.terms.map(({ what, total }) => [what, total])).toEqual([
      ['mated pairs', exactDb(db(1.5))],
      ['fibre GLASS', exactDb(db(0.3))],
    ]);
    const terms = expect.anything();
    const light = { wavelength: nm(850), greatest: exactDb(db(1.8)), terms, least: 0n };
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

  it('needs no loss in a row that reaches, and tells which does not reach', () => {
    const only = (length: number) => ({ reach: metres(length) });
    const reach = (length: number) => judged([only(length)]).answer;
    expect(reach(100)).toMatchObject({ support: 'by design', row: 'GLASS, 100 m' });
    expect(reach(99)).toMatchObject({
      support: 'not supported',
      row: 'GLASS, 99 m',
      because: '100 m is longer than its reach',
    });
    expect(told([only(99)]).map(({ name }) => name)).toEqual(['reach-exceeded']);
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

describe('over fibres that take two ways', () => {
  const glass = (min?: number): FibreType => ({
    ...fibre,
    attenuation: [
      {
        wavelength: nm(850),
        max: ratePerKm(3_000_000),
        ...(min !== undefined && { min: ratePerKm(min) }),
      },
    ],
  });
  const of = (length: number | undefined, type = glass()) =>
    ({ ...(stretch(100) as Segment), length: length && metres(length), fibre: type }) as Segment;
  /** 100 m, and what was put into one of its two fibres. */
  const mended = (fibres: readonly number[], put: PathElement[], type = glass()): Asked => ({
    elements: [mated(), of(100, type), mated()],
    model: { repairs: [{ name: 'R-1', fibres, on: when(500), path: put, place: place() }] },
  });

  it.each([[[1]], [[2]]])('the greater of each holds, the repaired one being %j', (fibres) => {
    // 200 m more: 1.5 + 0.9 dB over 300 m.
    const longer = mended(fibres, [of(200)]);
    expect(answered([row(300, 2.4)], longer)).toBe(
      `by design: fibre ${fibres[0]}: 2.40 dB at the greatest figures of all parts`,
    );
    expect(judged([row(299, 2.4)], longer).answer?.because).toBe(
      `fibre ${fibres[0]}: 300 m is longer than its reach`,
    );
    expect(judged([row(300, 2.399999)], longer).answer?.support).toBe('not supported');
    const [light] = judged([row(300, 2.6)], longer).answer?.light ?? [];
    expect(light?.terms.map(({ what, total }) => [what, total])).toEqual([
      ['mated pairs', exactDb(db(1.5))],
      ['fibre GLASS', exactDb(db(0.9))],
    ]);
    // A third pair.
    const joined = mended(fibres, [of(200), mated()]);
    const connections = (most: number) =>
      judged([row(300, 4, { connections: db(most) })], joined).answer?.support;
    expect([connections(2.25), connections(2.24)]).toEqual(['by design', 'not supported']);
  });

  it('named by the one that is meant: the longer for reach, the lossier for loss', () => {
    const repair = (name: string, fibre: number, path: PathElement[]) => ({
      ...{ name, fibres: [fibre], on: when(500), path, place: place() },
    });
    // 2.4 dB over 300 m beside 3.303 dB over 101 m, with two pairs more.
    const two = [repair('R-1', 1, [of(200)]), repair('R-2', 2, [mated(), of(1), mated()])];
    const asked = { elements: [mated(), of(100), mated()], model: { repairs: two } };
    expect(answered([row(300, 3.4)], asked)).toBe(
      'by design: fibre 2: 3.303 dB at the greatest figures of all parts',
    );
    expect(answered([row(300, 3.2)], asked)).toBe(
      'not supported: fibre 2: 3.303 dB at the greatest figures is more than its loss',
    );
    expect(answered([row(299, 3.4)], asked)).toContain('fibre 1: 300 m is longer');
    expect(answered([row(299, 3.2)], asked)).toContain('fibre 1: 300 m is longer');
  });

  it.each([[[1]], [[2]]])('the lesser of what each loses at the least, %j repaired', (fibres) => {
    const type = glass(2_000_000);
    const asked = mended(fibres, [of(200, type)], type);
    // 2.0 dB/km over 100 m of the other fibre.
    const held = (min: number) => answered([row(300, 2.6, { min: db(min) })], asked);
    expect(held(0.2)).toContain('by design');
    expect(held(0.21)).toBe(
      `not supported: fibre ${3 - fibres[0]!}: it may lose too little, 0.20 dB at the least`,
    );
  });

  it.each([[[1]], [[2]]])('what is not known of one is not known, %j repaired', (fibres) => {
    const bare = { ...fibre, name: 'BARE', meets: ['GLASS'], attenuation: [] };
    const put = { ...of(200, bare), fibreName: 'BARE' };
    const silent = { ...mended(fibres, [put]), terms: { limits: [] } };
    expect(told([row(300, 9)], silent)).toMatchObject([
      { name: 'application-figure-missing', missing: 'fibre BARE at 850 nm' },
    ]);
    expect(answered([row(300, 9)], mended(fibres, [of(undefined)]))).toBe(
      `not supported: fibre ${fibres[0]}: its length is not known; its loss at 850 nm is not known`,
    );
  });
});

describe('the light of a service', () => {
  it('takes figures at its own wavelength, else at one that is measured in its window', () => {
    const silent = { ...(stretch(100) as Segment), fibre: { ...fibre, attenuation: [] } };
    const lit = (wavelength: number, terms: Partial<Terms> = {}, more: Asked = {}) =>
      judged([row(300, 9)], {
        ...more,
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
    // Of a fibre that states nothing itself, at one that the limits know: 1.5 + 0.1 · 3.0 dB.
    const bare = { elements: [mated(), silent, mated()] };
    expect(lit(1310, {}, bare)).toEqual([nm(1310), '1.8']);
    expect(lit(1550, {}, bare)).toEqual([nm(1550), undefined]);
  });
});
