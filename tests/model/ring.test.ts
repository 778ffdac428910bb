/** Rings: nodes in order, spans between neighbours, and the long way of each cut. */
import { describe, expect, test } from 'vitest';
import { planOf } from './plan.ts';

const span = (name: string) => `link ${name} {
  fibres      1..4
  connector   SC-APC
  segment     1200 m G.652.D
  connector   SC-APC
}
`;

const links = ['R-1', 'R-2', 'R-3', 'R-4'].map(span).join('\n');

const read = (text: string) => {
  const plan = planOf(links, text);
  expect(plan.notation).toEqual([]);
  expect(plan.findings().map(({ message }) => message)).toEqual([]);
  return plan.link('RING');
};

const pathOf = (path: ReturnType<typeof read>['path']) =>
  path.map((element) => (element.kind === 'link' ? element.name : element.kind)).join(' ');

const three = `ring RING "Round the harbour" {
  node        "Operations room" through 3 m G.652.D
  link        R-1 fibres 1..2
  node        "Lighthouse" through 4 m G.652.D
  link        R-2 fibres 1..2
  cord        3 m G.652.D straight
  link        R-3 fibres 3..4
  node        "Breakwater" through 5 m G.652.D
  link        R-4 fibres 1..2
}
`;

describe('a ring', () => {
  const ring = read(three);

  test('has the places that it takes of its links, once round from the first node', () => {
    expect(ring).toMatchObject({ kind: 'ring', title: 'Round the harbour', fibres: [1, 2] });
    // The cords of the nodes that are passed; light that has come home passes none.
    expect(pathOf(ring.path)).toBe('R-1 cord R-2 cord R-3 cord R-4');
    expect(ring.nodes?.map(({ name }) => name)).toEqual([
      'Operations room',
      'Lighthouse',
      'Breakwater',
    ]);
  });

  test('has a span between neighbours, the last of them home', () => {
    const spans = ring.ways.filter(({ kind }) => kind === 'span');
    expect(spans.map(({ name, path }) => [name, pathOf(path)])).toEqual([
      ['Operations room to Lighthouse', 'R-1'],
      ['Lighthouse to Breakwater', 'R-2 cord R-3'],
      ['Breakwater to Operations room', 'R-4'],
    ]);
  });

  test('has a long way for each, through the cord of every node between', () => {
    const long = ring.ways.filter(({ kind }) => kind === 'long-way');
    expect(long.map(({ name, cut, path }) => [name, cut, pathOf(path)])).toEqual([
      [
        'Lighthouse to Operations room, the long way',
        'Operations room to Lighthouse',
        'R-2 cord R-3 cord R-4',
      ],
      ['Breakwater to Lighthouse, the long way', 'Lighthouse to Breakwater', 'R-4 cord R-1'],
      [
        'Operations room to Breakwater, the long way',
        'Breakwater to Operations room',
        'R-1 cord R-2 cord R-3',
      ],
    ]);
    const cords = long[1]?.path.filter(({ kind }) => kind === 'cord');
    // Whether it crosses the pair is said, never assumed.
    expect(cords?.map((cord) => cord.kind === 'cord' && [cord.length, cord.map])).toEqual([
      [3_000_000, undefined],
    ]);
  });

  test('takes the crossing of the cord behind a node as it is written', () => {
    for (const crossing of ['straight', 'crossed']) {
      const { nodes } = read(`ring RING {
  node        "Operations room" through 3 m G.652.D ${crossing}
  link        R-1 fibres 1..2
  node        "Lighthouse"
  link        R-2 fibres 1..2
}
`);
      expect(nodes?.map(({ through }) => through?.map)).toEqual([crossing, undefined]);
    }
  });

  test('of two nodes needs no cord: the long way passes none', () => {
    const two = read(`ring RING {
  node        "Operations room"
  link        R-1 fibres 1..2
  node        "Lighthouse"
  link        R-2 fibres 1..2
}
`);
    expect(two.ways.map(({ kind, path }) => [kind, pathOf(path)])).toEqual([
      ['span', 'R-1'],
      ['span', 'R-2'],
      ['long-way', 'R-2'],
      ['long-way', 'R-1'],
    ]);
  });

  test('what stands before its first node closes it behind the last', () => {
    const turned = read(`ring RING {
  link        R-1 fibres 1..2
  node        "Lighthouse"
  link        R-2 fibres 1..2
  node        "Operations room"
  link        R-3 fibres 1..2
  cord        3 m G.652.D straight
}
`);
    expect(turned.ways.slice(0, 2).map(({ name, path }) => [name, pathOf(path)])).toEqual([
      ['Lighthouse to Operations room', 'R-2'],
      ['Operations room to Lighthouse', 'R-3 cord R-1'],
    ]);
  });

  test('has no readings from the plan, and those it measures itself', () => {
    const plan = planOf(links, 'plan "P" {\n  measure     1310 nm\n}\n', three);
    expect(plan.link('RING').terms.measure).toEqual([]);
    expect(plan.link('R-1').terms.measure).toEqual([1_310_000]);
    const own = planOf(
      links,
      three.replace('  node        "Op', '  measure     1550 nm\n  node        "Op'),
    );
    expect(own.link('RING').terms.measure).toEqual([1_550_000]);
  });
});
