/** Paths that branch: their ends in order, their names, and the elements that they share. */
import { describe, expect, test } from 'vitest';
import { cableUse } from '../../server/src/model/api.ts';
import type { LinkModel } from '../../server/src/model/types.ts';
import { planOf } from './plan.ts';

const parts = `splitter PLC-1x4 {
  ports       1:4
  loss        max 7.4 dB
}

splitter PLC-1x8 {
  ports       1:8
  loss        max 10.7 dB
}

splitter TAP-10-90 {
  ports       1:2
  loss        out 1 max 11.2 dB
  loss        out 2 max 0.8 dB
}

pattern kiosk-drop {
  splice      fusion
  segment     <length> G.657.A2
  connector   SC-APC
}
`;

const hall = `link HALL-1 "Passenger hall access" {
  from        CORE/1:01
  connector   SC-APC
  segment     1850 m G.652.D
  splice      fusion
  split SP-1 PLC-1x4 {
    out 1 {
      splice      fusion
      segment     420 m G.652.D
      splice      fusion
      split SP-2 PLC-1x8 {
        out         1..8 to HALL/KIOSK-01..08 as kiosk-drop length 60 m
      }
    }
    out         2..4 spare
  }
}
`;

const apron = `link APRON-1 "Apron cameras" {
  from        CORE/1:02
  to          APRON/CAM-02
  connector   SC-APC
  segment     640 m G.652.D
  splice      fusion
  split T-1 TAP-10-90 {
    out         1 to APRON/CAM-01 as kiosk-drop length 25 m
    out         2 onward
  }
  splice      fusion
  segment     205 m G.652.D
  connector   SC-APC
}
`;

/** `splice segment SP-2:3 splice`. */
const pathOf = (link: LinkModel, end: string) =>
  link.ways
    .find(({ name }) => name === end)
    ?.path.map((element) =>
      element.kind === 'split' ? `${element.name}:${element.out}` : element.kind,
    )
    .join(' ');

const read = (...texts: readonly string[]) => {
  const plan = planOf(parts, ...texts);
  expect(plan.notation).toEqual([]);
  expect(plan.findings().map(({ message }) => message)).toEqual([]);
  return plan;
};

describe('a tree', () => {
  const link = read(hall).link('HALL-1');

  test('has an end for each output, in order of the text and under its port', () => {
    expect(link.fibres).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(link.ways.map(({ name, fibre }) => [name, fibre])).toEqual(
      [1, 2, 3, 4, 5, 6, 7, 8].map((fibre) => [`HALL/KIOSK-0${fibre}`, fibre]),
    );
    expect(pathOf(link, 'HALL/KIOSK-03')).toBe(
      'connector segment splice SP-1:1 splice segment splice SP-2:3 splice segment connector',
    );
  });

  test('shares what light has in common, as the same objects', () => {
    const [first, other] = link.ways;
    const apart = first!.path.filter((element, at) => element !== other!.path[at]);
    expect(apart.map(({ kind }) => kind)).toEqual(['split']);
  });

  test('has for its own path what all light takes, up to the first split', () => {
    expect(link.path.map(({ kind }) => kind)).toEqual(['connector', 'segment', 'splice', 'split']);
    const [split] = link.path.slice(-1);
    expect(split?.kind === 'split' && [split.name, split.out]).toEqual(['SP-1', undefined]);
    expect(link.path.slice(0, 3)).toEqual(link.ways[0]?.path.slice(0, 3));
    expect(link.mode).toBe('single-mode');
  });

  test('keeps what is spare', () => {
    expect(link.splits?.map(({ name, splitter, spare }) => [name, splitter, spare])).toEqual([
      ['SP-1', 'PLC-1x4', [2, 3, 4]],
      ['SP-2', 'PLC-1x8', []],
    ]);
  });

  test('follows a chain of taps along onward, its last end under the link’s own port', () => {
    const chain = read(apron).link('APRON-1');
    expect(chain.ways.map(({ name }) => name)).toEqual(['APRON/CAM-01', 'APRON/CAM-02']);
    expect(pathOf(chain, 'APRON/CAM-01')).toBe(
      'connector segment splice T-1:1 splice segment connector',
    );
    expect(pathOf(chain, 'APRON/CAM-02')).toBe(
      'connector segment splice T-1:2 splice segment connector',
    );
  });

  test('numbers its ends as fibres says', () => {
    const numbered = read(apron.replace('  connector', '  fibres      31, 30\n  connector'));
    expect(numbered.link('APRON-1').ways.map(({ fibre }) => fibre)).toEqual([31, 30]);
  });
});

describe('ends without a port', () => {
  const stage = `pattern stage {
  split T TAP-10-90 {
    out         1 as kiosk-drop length <drop>
    out         2 onward
  }
  splice      fusion
  segment     <lane> G.652.D
  splice      fusion
}
`;

  test('are called by splitter and output', () => {
    const bare = read(hall.replace(' to HALL/KIOSK-01..08', '')).link('HALL-1');
    expect(bare.ways.map(({ name }) => name).slice(0, 2)).toEqual(['SP-2:1', 'SP-2:2']);
  });

  test('by all splitters on the way where one is not enough', () => {
    const twice = read(
      hall
        .replace('out 1 {', 'out 1..2 {')
        .replace('2..4 spare', '3..4 spare')
        .replace(' to HALL/KIOSK-01..08', ''),
    ).link('HALL-1');
    expect(twice.ways).toHaveLength(16);
    expect(twice.ways[0]?.name).toBe('SP-1:1/SP-2:1');
    expect(twice.ways[15]?.name).toBe('SP-1:2/SP-2:8');
    expect(twice.splits?.[1]).toMatchObject({ name: 'SP-2', stands: 2 });
  });

  test('a pattern may hold a split, its holes filled within it, and be placed again and again', () => {
    const chain = read(
      stage,
      `link LANE {
  from        CORE/1:03
  to          LANE/LAST
  connector   SC-APC
  segment     100 m G.652.D
  splice      fusion
  as          stage drop 20 m lane 80 m
  as          stage drop 35 m lane 90 m
  segment     5 m G.652.D
  connector   SC-APC
}
`.replace('  segment     5 m G.652.D\n', ''),
    ).link('LANE');
    expect(chain.ways.map(({ name }) => name)).toEqual(['T:1', 'T:2/T:1', 'LANE/LAST']);
    const drops = chain.ways.map(({ path }) =>
      path.filter(({ kind }) => kind === 'segment').at(-1),
    );
    expect(drops).toMatchObject([
      { length: 20_000_000 },
      { length: 35_000_000 },
      { length: 90_000_000 },
    ]);
  });
});

describe('lists within outputs that are alike', () => {
  const cable = `cable C-510 {
  fibre       G.657.A2
  count       12
  length      64 m
}
`;
  const risers = hall.replace(
    'out         1..8 to HALL/KIOSK-01..08 as kiosk-drop length 60 m',
    `out 1..8 to HALL/KIOSK-01..08 {
          splice      fusion
          segment     C-510 fibres 1..8
          connector   SC-APC
        }`,
  );

  test('have a member for each of them', () => {
    const link = read(cable, risers).link('HALL-1');
    expect(link.ways).toHaveLength(8);
    const uses = cableUse(link).map(({ cable: name, fibre }) => `${name} ${fibre}`);
    expect(uses).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((fibre) => `C-510 ${fibre}`));
  });

  test('and are asked for them', () => {
    const plan = planOf(parts, cable, risers.replace('fibres 1..8', 'fibres 1..6'));
    expect(plan.findings().map(({ message }) => message)).toEqual([
      'The list of fibres of C-510 has 6 members, and HALL-1 has 8 fibres. Give both the same number.',
    ]);
  });
});

describe('large trees', () => {
  const many = (outputs: number) => `splitter WIDE {
  ports       1:${outputs}
}

link WIDE-1 {
  from        CORE/1:04
  connector   SC-APC
  segment     100 m G.652.D
  splice      fusion
  split SP WIDE {
    out         1..${outputs} to W/1..${outputs} as kiosk-drop length 20 m
  }
}
`;

  test('of as many ends as are judged hold each element once', () => {
    const link = read(many(4096)).link('WIDE-1');
    expect(link.ways).toHaveLength(4096);
    const elements = new Set(link.ways.flatMap(({ path }) => path));
    // Three of the trunk, three of the drop, and one output each.
    expect(elements.size).toBe(4096 + 6);
  });

  test('of one more are not: nothing of them is judged', () => {
    const plan = planOf(parts, many(4097));
    expect(plan.findings().map(({ name }) => name)).toEqual(['tree-too-large']);
    expect(plan.link('WIDE-1').ways).toEqual([]);
  });

  test('a chain of five hundred taps is no deeper than one', () => {
    const taps = Array.from(
      { length: 500 },
      (_, at) => `  split T-${at} TAP-10-90 {
    out         1 to LANE/${at} as kiosk-drop length 20 m
    out         2 onward
  }
  splice      fusion
  segment     10 m G.652.D
  splice      fusion
`,
    ).join('');
    const link = read(`link LANE {
  from        CORE/1:03
  to          LANE/LAST
  connector   SC-APC
  segment     100 m G.652.D
  splice      fusion
${taps}  connector   SC-APC
}
`).link('LANE');
    expect(link.ways).toHaveLength(501);
    expect(link.ways.at(-1)?.path.filter(({ kind }) => kind === 'split')).toHaveLength(500);
  });
});

describe('one mistake in a tree is one finding', () => {
  const found = (text: string) => {
    const plan = planOf(parts, text);
    return [...plan.notation, ...plan.findings()].map(({ name }) => name);
  };

  test('an unknown pattern behind an output', () => {
    expect(found(hall.replace('as kiosk-drop', 'as kiosk-dropp'))).toEqual(['unknown-reference']);
  });

  test('an unknown splitter', () => {
    expect(found(hall.replace('SP-2 PLC-1x8', 'SP-2 PLC-1x88'))).toEqual(['unknown-reference']);
  });

  test('a hole that is not filled behind an output', () => {
    expect(found(hall.replace(' length 60 m', ''))).toEqual(['hole-unfilled']);
  });

  test('a hole of a pattern that holds a split, filled with something else', () => {
    const stage = `pattern stage {
  split T TAP-10-90 {
    out         1 to LANE/01 as kiosk-drop length <drop>
    out         2 onward
  }
  splice      fusion
  segment     20 m G.652.D
  connector   SC-APC
}
link LANE {
  from        CORE/1:03
  connector   SC-APC
  segment     100 m G.652.D
  splice      fusion
  as          stage drop SC-APC
}
`;
    expect(found(stage)).toEqual(['hole-misfit']);
    expect(found(stage.replace(' drop SC-APC', ''))).toEqual(['hole-unfilled']);
    expect(found(stage.replace('drop SC-APC', 'drop 20 m'))).toEqual([]);
  });

  test('an output that says nothing, and a brace left open', () => {
    expect(found(apron.replace('2 onward', '2'))).toHaveLength(1);
    const open = apron.replace('    out         2 onward\n  }\n', '    out         2 onward\n');
    expect(found(open)).toHaveLength(1);
  });

  test('two feeds of a splitter with two inputs, and a third that it has not', () => {
    const two = `splitter PLC-2x4 {
  ports       2:4
}

${hall.replace('PLC-1x4', 'PLC-2x4').replace('CORE/1:01', 'CORE/1:01..02')}`;
    expect(found(two)).toEqual([]);
    expect(found(two.replace('01..02', '01..03'))).toEqual(['count-mismatch']);
  });
});
