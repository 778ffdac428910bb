/** Components in a path: which way round they stand, where places come out, which port light takes, pins and keys. */
import { describe, expect, it } from 'vitest';
import { componentAtPort } from '../../server/src/model/parts.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import { planOf } from './plan.ts';

/** A part over three places whose way there is not its way back. */
const turning = `connector TRIO {
  positions   3
}

component TURN {
  joins       TRIO to LC
  map         2, 3, 1
  loss        max 0.7 dB
}
`;

type Component = Extract<PathElement, { kind: 'component' }>;

function components(text: string, name = 'KQ-1'): readonly Component[] {
  const plan = planOf(text);
  expect(plan.findings()).toEqual([]);
  return plan.link(name).path.filter((element) => element.kind === 'component');
}

const link = (path: string, fibres = '1..3') =>
  `${turning}\nlink KQ-1 {\n  fibres      ${fibres}\n${path}}\n`;

describe('which way round a part stands', () => {
  it('second kind first where the path begins, first kind first elsewhere', () => {
    const [first, last] = components(
      link('  component   TURN\n  segment     60 m OM4\n  component   TURN\n'),
    );
    expect(first?.map).toEqual([3, 1, 2]);
    expect(last?.map).toEqual([2, 3, 1]);
    expect([first?.turned, last?.turned]).toEqual([false, false]);
  });

  it('the other way round where it is turned', () => {
    const [first, last] = components(
      link('  component   TURN turned\n  segment     60 m OM4\n  component   TURN turned\n'),
    );
    expect(first?.map).toEqual([2, 3, 1]);
    expect(last?.map).toEqual([3, 1, 2]);
    expect([first?.turned, last?.turned]).toEqual([true, true]);
  });

  it('by the map behind it, where one is written, in the same sense', () => {
    const [first, last] = components(
      link(
        '  component   TURN map 3, 1, 2\n  segment     60 m OM4\n  component   TURN map reversed\n',
      ),
    );
    expect(first?.map).toEqual([2, 3, 1]);
    expect(last?.map).toEqual([3, 2, 1]);
  });

  it('outward again at the end of a pattern that is turned', () => {
    const end =
      'pattern end {\n  component   TURN\n  segment     2 m OM4\n  splice      fusion\n}\n';
    const [first, last] = components(
      `${end}\n${link('  as          end\n  segment     60 m OM4\n  as          end turned\n')}`,
    );
    expect([first?.map, first?.turned]).toEqual([[3, 1, 2], false]);
    expect([last?.map, last?.turned]).toEqual([[2, 3, 1], false]);
  });

  it('in the middle of a pattern that is turned, turned with it', () => {
    const middle = 'pattern middle {\n  connector   LC\n  component   TURN\n  connector   LC\n}\n';
    const [straight, turned] = components(
      `${middle}\n${link('  as          middle\n  segment     60 m OM4\n  as          middle turned\n')}`,
    );
    expect([straight?.map, straight?.turned]).toEqual([[2, 3, 1], false]);
    expect([turned?.map, turned?.turned]).toEqual([[3, 1, 2], true]);
  });
});

describe('where places come out', () => {
  it('holds for each array in turn', () => {
    const [, last] = components(
      link('  component   TURN\n  segment     60 m OM4\n  component   TURN\n', '1..6'),
    );
    expect(last?.map).toEqual([2, 3, 1, 5, 6, 4]);
  });

  it('a named map of a segment holds within each array it lies between', () => {
    const plan = planOf(
      `${turning}\nlink KQ-1 {\n  fibres      1..6\n  connector   TRIO\n  segment     60 m OM4 map reversed\n  connector   TRIO\n}\n`,
    );
    const [, segment] = plan.link('KQ-1').path;
    expect(segment?.kind === 'segment' && segment.map).toEqual([3, 2, 1, 6, 5, 4]);
  });

  it('is not known where an array has no map, and straight where there is no array', () => {
    const plan = planOf(`component BARE {
  joins       MPO-12 to LC
}

component PAD {
  loss        max 5.5 dB
}

link KQ-1 {
  fibres      1..12
  component   BARE
  segment     60 m OM4
  component   PAD
  segment     60 m OM4
  connector   LC
}
`);
    const [bare, , pad] = plan.link('KQ-1').path;
    expect(bare?.kind === 'component' && bare.map).toBeUndefined();
    expect(pad?.kind === 'component' && pad.map).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
  });

  it('a crossed cord is none for an odd number of places; its own list is kept', () => {
    const plan = planOf(`${link('  connector   LC\n  segment     60 m OM4\n  connector   LC\n')}
channel CH-1 {
  cord        2 m OM4 map 2, 3, 1
  link        KQ-1
  cord        2 m OM4 crossed
}
`);
    const [first] = plan.link('CH-1').path;
    expect(first?.kind === 'cord' && first.map).toEqual([2, 3, 1]);
    expect(plan.findings().map(({ message }) => message)).toEqual([
      'The map of this cord swaps pairs, and 3 places are no pairs. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.',
    ]);
  });
});

describe('the port that light takes', () => {
  const plan = planOf(`component MUX {
  loss        port 1531 wavelength 1531 nm typ 0.9 dB max 1.4 dB
  loss        port 1551 max 1.2 dB
  loss        max 3.0 dB
}
`);
  const at = (port?: string) =>
    componentAtPort(plan.declaration('MUX', 'component'), port, plan.scope).loss.map(
      ({ wavelength, max }) => [wavelength, max],
    );

  it('has its own figures, then those of the part', () => {
    expect(at('1531')).toEqual([
      [1_531_000, 1_400_000],
      [undefined, 3_000_000],
    ]);
  });

  it('has no others where its own hold at every wavelength', () => {
    expect(at('1551')).toEqual([[undefined, 1_200_000]]);
  });

  it('is the part itself where none is said', () => {
    expect(at()).toEqual([[undefined, 3_000_000]]);
  });
});

it('pins and keys are as written, the side of the pins seen from A', () => {
  const plan = planOf(`pattern end {
  connector   MPO-12 pins A key opposed
  segment     2 m OM4
  splice      fusion
}

link KQ-1 {
  fibres      1..12
  as          end
  segment     60 m OM4
  as          end turned
}

link CORD-1 {
  fibres      1..12
  plug        MPO-12 pinned
  segment     3 m OM4
  plug        MPO-12
}
`);
  expect(plan.findings()).toEqual([]);
  expect(plan.link('KQ-1').path[0]).toMatchObject({ pins: 'A', key: 'opposed' });
  expect(plan.link('KQ-1').path.at(-1)).toMatchObject({ pins: 'B', key: 'opposed' });
  expect(plan.link('CORD-1').path[0]).toMatchObject({ pinned: true });
  expect(plan.link('CORD-1').path.at(-1)).not.toHaveProperty('pinned');
});
