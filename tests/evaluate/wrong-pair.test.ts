/**
 * A reading whose light came out at another port than the plan lets it out at: which
 * pair it belongs to, and which looks count. Ports are matched by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Evidence, ReadingCell, SeenCell } from '../../server/src/model/types.ts';
import { cell, cleaned, place, when, withdrawn } from '../support/build.ts';
import { key, told } from './short-link.ts';

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
    // Exchanged are two, and only where the other came out at the port of the first.
    for (const other of [seen(3, 'B:1'), seen(2, 'B:3')]) {
      const [found] = told('wrong-pair', [first], {
        fibres: 3,
        model: { from: ['A:1', 'A:2', 'A:3'], to: ['B:1', 'B:2', 'B:3'] },
        also: { seen: [seen(1, 'B:2'), other] },
      });
      expect(found?.details).toMatchObject({ fibre: 1, belongs: 2 });
      expect(found?.details).not.toHaveProperty('swapped');
    }
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

  it('at an end that it went in at, light from A is of no pair of the plan', () => {
    // Towards B only the ports of B are right, its own port at A no more than another.
    for (const [port, belongs] of [
      ['A:1', undefined],
      ['A:2', 2],
    ] as const) {
      const [found] = wrong([read(1, port)], [seen(1, port)]);
      expect(found?.details).toMatchObject({ seen: port, wanted: 'B:1' });
      expect(found?.details.belongs).toBe(belongs);
    }
  });

  it('is what was seen last, unless work came after or it was taken back', () => {
    expect(wrong([read(1)], [seen(1, 'B:2', 400), seen(1, 'B:1', 500)])).toEqual([]);
    expect(wrong([read(1)], [seen(1, 'B:1', 400), seen(1, 'B:2', 500)]).length).toBe(1);
    expect(wrong([read(1)], [seen(1, 'B:2', 500), seen(1, 'B:1', 400)]).length).toBe(1);
    expect(wrong([read(1)], [seen(1, 'B:1', 500), seen(1, 'B:2', 500)]).length).toBe(1);
    const work = cleaned(when(450), { done: 'patched' });
    expect(wrong([read(1)], [seen(1, 'B:2', 400)], { work })).toEqual([]);
    const withdrawals = withdrawn({ tested: when(400) });
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
