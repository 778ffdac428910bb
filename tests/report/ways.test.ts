/** Drawings of what has several ways, and the tables beside a drawing, of the examples as they stand. */
import { describe, expect, test } from 'vitest';
import { drawingOf } from '../../server/src/report/drawing.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { openExample } from '../examples/open.ts';

function drawn(example: string, object: string) {
  const [plan] = openExample(example).plans;
  if (!plan) throw new Error(`${example} has no plan`);
  const drawing = drawingOf({ plan, display: plainDisplay }, object, undefined);
  const result = plan.result.link(object);
  if (!drawing || !result) throw new Error(`${object} is not drawn`);
  return { drawing, result };
}

describe('a splitter tree', () => {
  const { drawing, result } = drawn('splitter-network', 'HALL-1');
  const { tree } = drawing;

  test('has every end once, alone or among those alike', () => {
    const ends = tree?.ends.reduce((sum, { alike }) => sum + alike + 1, 0);
    expect(ends).toBe(result.ways.length);
    expect(tree?.ends.map(({ row }) => row)).toEqual(tree?.ends.map((_, index) => index));
  });

  test('never folds an end that is not pass with readings', () => {
    for (const { alike, verdict, readings } of tree?.ends ?? []) {
      if (alike > 0 && readings.length > 0) expect(verdict).toBe('pass');
    }
  });

  test('draws what ends share once: no stretch of one row lies over another', () => {
    const rows = new Map<number, [number, number][]>();
    for (const { row, from, to } of tree?.lines ?? []) {
      expect(to).toBeGreaterThan(from);
      rows.set(row, [...(rows.get(row) ?? []), [from, to]]);
    }
    for (const stretches of rows.values()) {
      const ordered = stretches.toSorted((a, b) => a[0] - b[0]);
      for (const [index, [from]] of ordered.entries()) {
        expect(from).toBeGreaterThanOrEqual((ordered[index - 1]?.[1] ?? 0) - 1e-9);
      }
    }
  });

  test('parts at its splitters', () => {
    expect(tree?.stems.length).toBeGreaterThanOrEqual(1);
    for (const { first, last, name } of tree?.stems ?? []) {
      expect(last).toBeGreaterThan(first);
      expect(name).not.toBe('');
    }
  });
});

describe('a ring', () => {
  const { drawing, result } = drawn('ring', 'KQ-RING');
  const { ring } = drawing;

  test('has its first node at both ends, and the same sum going round either way', () => {
    const stations = ring?.stations ?? [];
    expect(stations[0]?.name).toBe(stations.at(-1)?.name);
    expect(stations.at(-1)?.there).toBeCloseTo(stations[0]?.back ?? Number.NaN, 9);
    expect(stations.length).toBe((result.link.nodes?.length ?? 0) + 1);
  });

  test('says of every span what its cut leaves', () => {
    const spans = result.ways.filter(({ kind }) => kind === 'span').map(({ name }) => name);
    expect(ring?.cuts.map(({ span }) => span)).toEqual(spans);
    const long = result.ways.filter(({ kind }) => kind === 'long-way').length;
    expect(ring?.cuts.filter((cut) => cut.long).length).toBe(long);
  });
});

test('traces and lengths stand beside the drawing, a row each', () => {
  const { drawing, result } = drawn('outside-plant', 'KQ-OUTER-2');
  const rows = (title: string) => drawing.beside.find((table) => table.title === title)?.rows ?? [];
  expect(rows('Events of its traces')).toHaveLength(result.events.length);
  expect(rows('Lengths as measured')).toHaveLength(result.lengths.length);
  const failed = rows('Events of its traces').filter(({ verdict }) => verdict === 'fail');
  expect(failed.length).toBeGreaterThan(0);
  for (const { place, note } of failed) {
    expect(place?.uri).toMatch(/traces\.lwl$/u);
    expect(note).not.toBe('');
  }
});
