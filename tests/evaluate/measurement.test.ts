/**
 * What was measured once, its attempts, and what ages it. Attempts are numbered
 * by time, then by place; work ages all it touched, on the fibres of an array
 * joint all of them (common practice, no source). Whole days stand in
 * tests/published/bad-day.test.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  agingWork,
  attemptsOf,
  covers,
  measurementsOf,
} from '../../server/src/evaluate/measurement.ts';
import type {
  LinkModel,
  PathElement,
  ReadingCell,
  WorkEvent,
} from '../../server/src/model/types.ts';
import { cell, cleaned, connector, dbm, nm, place, stretch, when } from '../support/build.ts';
import { judged } from './quiet-link.ts';

const power = (of: ReadingCell, more: Partial<ReadingCell> = {}): ReadingCell => ({
  ...of,
  quantity: 'power',
  loss: undefined,
  power: dbm(-21),
  ...more,
});

describe('a measurement', () => {
  it('is the loss of a row with the power beside it, whichever stands first', () => {
    const loss = cell(1, 1.1, 'A>B', 500);
    for (const order of [
      [loss, power(loss)],
      [power(loss), loss],
    ]) {
      const [only, ...rest] = measurementsOf(order);
      expect(rest).toEqual([]);
      expect(only).toMatchObject({ cell: loss, power: { quantity: 'power' } });
    }
  });

  it('is not joined over rows, blocks, fibres, wavelengths or directions', () => {
    const loss = cell(1, 1.1, 'A>B', 500);
    const apart = [
      { row: { ...loss.row, block: loss.row.block + 1 } },
      { row: { ...loss.row, span: { start: loss.row.span.start + 1, end: loss.row.span.end } } },
      { fibre: 2 },
      { wavelength: nm(1300) },
      { direction: 'B>A' as const },
    ];
    for (const more of apart) {
      const found = measurementsOf([loss, power(loss, more)]);
      expect(found.map((one) => [one.cell.quantity, one.power])).toEqual([
        ['loss', undefined],
        ['power', undefined],
      ]);
    }
  });

  it('of a power alone has no second power, and two losses of a row are two', () => {
    const loss = cell(1, 1.1, 'A>B', 500);
    expect(measurementsOf([power(loss)])).toMatchObject([{ power: undefined }]);
    expect(measurementsOf([loss, { ...loss }])).toHaveLength(2);
  });

  it('is none of what light a joint throws back', () => {
    expect(measurementsOf([{ ...cell(1, 1.1, 'A>B', 500), quantity: 'reflectance' }])).toEqual([]);
  });
});

describe('attempts', () => {
  const orders = (...cells: ReadingCell[]) =>
    [...attemptsOf(measurementsOf(cells)).values()].map((list) =>
      list.map((one) => cells.indexOf(one.cell)),
    );

  it('of a key are in order of time, of equal times in order of the text', () => {
    expect(orders(cell(1, 1, 'A>B', 520), cell(1, 1, 'A>B', 500))).toEqual([[1, 0]]);
    const [first, second] = [cell(1, 1, 'A>B', 500), cell(1, 1, 'A>B', 500)];
    expect(orders(second, first)).toEqual([[1, 0]]);
    expect(orders(first, second)).toEqual([[0, 1]]);
    const [day, minute] = [{ ...cell(1, 1, 'A>B', 0), at: when(0, 1439) }, cell(1, 1, 'A>B', 0)];
    expect(orders(day, minute)).toEqual([[1, 0]]);
  });

  it('of other fibres, wavelengths and directions are apart', () => {
    const cells = [
      cell(1, 1, 'A>B', 500),
      cell(2, 1, 'A>B', 500),
      cell(1, 1, 'B>A', 500),
      cell(1, 1, 'A>B', 500, 1300),
    ];
    expect(orders(...cells)).toEqual([[0], [1], [2], [3]]);
  });
});

describe('a decision that is narrowed', () => {
  const reading = cell(7, 1, 'A>B', 500);
  const about = (more: Parameters<typeof covers>[0] | object) =>
    covers({ object: 'KQ-1', ...more }, reading);

  it('is about all that it does not leave out', () => {
    expect(about({})).toBe(true);
    expect([[6], [6, 7]].map((fibres) => about({ fibres }))).toEqual([false, true]);
    expect([850, 1300].map((light) => about({ wavelength: nm(light) }))).toEqual([true, false]);
    expect(['A>B', 'B>A'].map((direction) => about({ direction }))).toEqual([true, false]);
  });

  it('by time is about what began within it, its first and last minute included', () => {
    const tested = (from: number, to = from) => about({ tested: when(from, to) });
    expect([tested(500), tested(499), tested(501)]).toEqual([true, false, false]);
    expect([tested(480, 500), tested(500, 520), tested(480, 499), tested(501, 520)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('work', () => {
  const work = (from: number, to: number, more: Partial<WorkEvent> = {}): WorkEvent => ({
    object: 'KQ-1',
    done: 'cleaned',
    on: when(from, to),
    place: place(),
    ...more,
  });
  const alone = (fibre: number) => [fibre];
  const array = () => [1, 2, 3, 4];
  const ages = (event: WorkEvent, sharing: (fibre: number) => readonly number[] = alone) =>
    agingWork([event], cell(2, 1, 'A>B', 500), sharing) !== undefined;

  it('ages what was read before it or may have been', () => {
    expect(ages(work(499, 499))).toBe(false);
    expect(ages(work(500, 500))).toBe(true);
    expect(ages(work(501, 501))).toBe(true);
    // A day without a time of day may have come after the reading.
    expect(ages(work(0, 1439))).toBe(true);
  });

  it('ages its own fibres, all of an array joint, and those alone where it says so', () => {
    expect(ages(work(501, 501, { fibres: [2] }))).toBe(true);
    expect(ages(work(501, 501, { fibres: [1, 3] }))).toBe(false);
    expect(ages(work(501, 501, { fibres: [1] }), array)).toBe(true);
    expect(ages(work(501, 501, { fibres: [1], alone: true }), array)).toBe(false);
    expect(ages(work(501, 501, { fibres: [1, 2], alone: true }), array)).toBe(true);
    expect(ages(work(501, 501, { fibres: [] }), array)).toBe(false);
  });

  it('is the first that does', () => {
    const [before, first, second] = [work(400, 400), work(510, 510), work(505, 505)];
    const found = agingWork([before, first, second], cell(2, 1, 'A>B', 500), alone);
    expect(found).toBe(first);
    expect(agingWork([], cell(2, 1, 'A>B', 500), alone)).toBeUndefined();
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
        { readings, work: cleaned(when(600), { fibres }) },
        { elements: [array, stretch(100), array], fibres: 8, terms: { measure: [nm(850)] } },
      ).fibres.flatMap(({ fibre: number, verdict }) => (verdict === 'stale' ? [number] : []));
    expect(verdicts([6])).toEqual([5, 6, 7, 8]);
    expect(verdicts([1])).toEqual([1, 2, 3, 4]);
    expect(verdicts([9])).toEqual([]);
    // Plugs of an array are one joint as pairs are; two in one housing are two.
    const aged = (
      kind: 'plug' | 'connector',
      positions: number,
      numbers: readonly number[],
      more = {},
    ) =>
      judged(
        {
          readings: numbers.map((one) => cell(one, 1, 'A>B', 500)),
          work: cleaned(when(600), { fibres: [numbers[0]!] }),
        },
        {
          elements: [
            { kind, name: 'MPO', type: { ...connector, positions }, place: place() },
            stretch(100),
          ],
          fibres: 8,
          terms: { measure: [nm(850)] },
          ...more,
        },
      )
        .readings.filter(({ attempt, verdict }) => attempt !== null && verdict === 'stale')
        .map(({ fibre: number }) => number);
    expect(aged('plug', 4, [1, 2, 4, 5])).toEqual([1, 2, 4]);
    expect(aged('connector', 2, [1, 2])).toEqual([1]);
    expect(aged('connector', 3, [1, 2, 3, 4])).toEqual([1, 2, 3]);
    // A fibre that the link does not have shares a joint with none, and is aged all the same.
    expect(aged('plug', 4, [9, 1])).toEqual([9]);
    // Ends of a tree are no fibres of an array.
    const ways = [1, 2].map((end) => ({
      kind: 'branch',
      name: `E-${end}`,
      fibre: end,
      path: [
        { kind: 'plug', name: 'MPO', type: { ...connector, positions: 4 }, place: place() },
        stretch(7),
      ],
      place: place(),
    }));
    expect(
      aged('plug', 4, [1, 2], { model: { ways: ways as unknown as LinkModel['ways'] } }),
    ).toEqual([1]);
  });
});
