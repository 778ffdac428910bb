/**
 * Whether a path carries a service by what was read of it. Pairs of 0.75 dB and fibre of
 * 3.0 dB/km at 850 nm (TIA-568.3-E): two pairs and 100 m lose 1.8 dB at most. That a
 * duplex service takes one fibre each way is the form of IEEE 802.3.
 */
import { describe, expect, it } from 'vitest';
import type { LinkModel, PathElement, ReadingCell } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  carried,
  cell,
  db,
  dbm,
  evaluate,
  evidence,
  limitsSet,
  link,
  mated,
  nm,
  place,
  setup,
  stretch,
  when,
} from '../support/build.ts';
import { type Asked, answered, judged, row, service, told } from './carried-service.ts';

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
      link(betweenPairs(100), { carries: [type] }, 2),
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
