/**
 * Polarity as the product of maps.
 *
 * Maps of trunks: straight 1 to 1, reversed 1 to 12, pairs flipped 1 to 2: a
 * component supplier's page on the polarity of arrays, and a cable supplier's
 * on the methods of TIA-568, which also prints where each method crosses the
 * pair. That an odd number of crossings is needed end to end: two cabling
 * makers' guides after ISO/IEC 11801 and EN 50173. A module has side A of pair
 * n on position 2n − 1 and side B on 2n, one for the other end A on 13 − 2n and
 * B on 14 − 2n; a crossing duplex cord exchanges the sides. Which arrival is
 * right follows from that by arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { doubts, judged } from './judged.ts';

const plan = `plan "Polarity" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

component PLAIN {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

component TURNED {
  like        PLAIN
  map         11, 12, 9, 10, 7, 8, 5, 6, 3, 4, 1, 2
}
`;

type Trunk = 'straight' | 'reversed' | 'pairs-swapped';
type Cord = 'crossed' | 'straight';

const duplex = (trunk: Trunk, far: 'PLAIN' | 'TURNED', near: Cord, other: Cord) => `${plan}
link KQ-T {
  fibres      1..12
  component   PLAIN
  segment     72 m OM4 map ${trunk}
  component   ${far}
}

channel KQ-C {
  cord        2 m OM4 ${near}
  link        KQ-T
  cord        2 m OM4 ${other}
  carries     10GBASE-SR
}
`;

/** Side and pair at which the light of side A of pairs 1 to 6 arrives: `1B 2B …`. */
function arrivals(text: string): string {
  const { arrivals } = judged(text).link('KQ-C');
  return arrivals
    .filter((_, index) => index % 2 === 0)
    .map(({ place = NaN }) => `${Math.ceil(place / 2)}${place % 2 === 1 ? 'A' : 'B'}`)
    .join(' ');
}

describe('duplex: side A of a port must arrive at side B of the same pair', () => {
  it.each([
    ['straight', 'PLAIN', 'crossed', 'straight', '1B 2B 3B 4B 5B 6B', []],
    ['straight', 'PLAIN', 'crossed', 'crossed', '1A 2A 3A 4A 5A 6A', ['pair-order-broken']],
    ['reversed', 'TURNED', 'crossed', 'crossed', '1B 2B 3B 4B 5B 6B', []],
    ['reversed', 'PLAIN', 'crossed', 'crossed', '6B 5B 4B 3B 2B 1B', ['arrives-at-wrong-pair']],
    ['pairs-swapped', 'PLAIN', 'crossed', 'crossed', '1B 2B 3B 4B 5B 6B', []],
    ['straight', 'TURNED', 'crossed', 'crossed', '6A 5A 4A 3A 2A 1A', ['arrives-at-wrong-pair']],
  ] as const)(
    '%s trunk, far module %s, cords %s and %s: %s',
    (trunk, far, near, other, expected, names) => {
      const text = duplex(trunk, far, near, other);
      expect(arrivals(text)).toBe(expected);
      const polarity = doubts(judged(text).link('KQ-C')).filter((name) => about.has(name));
      expect(polarity).toEqual(names);
    },
  );

  it('the side is right where an odd number of crossings brings light to the wrong pair, and wrong with it where it is even', () => {
    const sides = (text: string) =>
      judged(text)
        .link('KQ-C')
        .doubts.find(({ name }) => name === 'arrives-at-wrong-pair')?.details.sides;
    expect(sides(duplex('reversed', 'PLAIN', 'crossed', 'crossed'))).toBe('right');
    expect(sides(duplex('straight', 'TURNED', 'crossed', 'crossed'))).toBe('wrong');
  });

  it('a pair taken by itself goes astray in the link: the wrong pair, unless the far end is said', () => {
    const one = (to: string) =>
      duplex('reversed', 'PLAIN', 'crossed', 'crossed').replace(
        'link        KQ-T\n',
        `link        KQ-T fibres 1..2${to}\n`,
      );
    expect(doubts(judged(one('')).link('KQ-C'))).toContain('comes-out-elsewhere');
    const said = judged(one(' to 11..12')).link('KQ-C');
    expect(doubts(said).filter((name) => about.has(name))).toEqual([]);
    expect(said.arrivals.map(({ place }) => place)).toEqual([2, 1]);
  });
});

const about = new Set([
  'pair-order-broken',
  'arrives-at-wrong-pair',
  'lanes-out-of-order',
  'comes-out-elsewhere',
]);

const parallel = (near: Trunk, trunk: Trunk, far: Trunk) => `${plan}
link KQ-T {
  fibres      1..12
  connector   MPO-12
  segment     72 m OM4 map ${trunk}
  connector   MPO-12
  spare       5..8
}

channel KQ-C {
  from        OPS/SW:M1
  to          ROW/SW:M1
  cord        3 m OM4 map ${near}
  link        KQ-T
  cord        3 m OM4 map ${far}
  carries     40GBASE-SR4 fibres 1..4, 9..12
}
`;

describe('parallel: lanes leave on 1 2 3 4 and must arrive on 12 11 10 9', () => {
  it.each([
    ['reversed', 'reversed', 'reversed', [12, 11, 10, 9], true],
    ['straight', 'straight', 'reversed', [12, 11, 10, 9], true],
    ['straight', 'reversed', 'reversed', [1, 2, 3, 4], false],
    ['reversed', 'pairs-swapped', 'reversed', [2, 1, 4, 3], false],
  ] as const)('cord %s, trunk %s, cord %s: on %j', (near, trunk, far, expected, right) => {
    const result = judged(parallel(near, trunk, far)).link('KQ-C');
    expect(result.arrivals.slice(0, 4).map(({ place }) => place)).toEqual(expected);
    expect(result.arrivals.slice(0, 4).map(({ wanted }) => wanted)).toEqual([12, 11, 10, 9]);
    const polarity = doubts(result).filter((name) => about.has(name));
    expect(polarity).toEqual(right ? [] : ['lanes-out-of-order']);
  });
});

it('two arrays in one channel: each is turned round by itself, and so are its cords', () => {
  const two = parallel('reversed', 'reversed', 'reversed')
    .replace('fibres      1..12', 'fibres      1..24')
    .replace('OPS/SW:M1', 'OPS/SW:M1, OPS/SW:M2')
    .replace('ROW/SW:M1', 'ROW/SW:M1, ROW/SW:M2')
    .replace('fibres 1..4, 9..12', 'fibres 1..4, 9..12, 13..16, 21..24');
  const result = judged(two).link('KQ-C');
  expect(result.arrivals.map(({ place }) => place).slice(10, 14)).toEqual([2, 1, 24, 23]);
  expect(result.arrivals[12]).toMatchObject({ port: 'ROW/SW:M2', wanted: 24 });
  expect(doubts(result).filter((name) => about.has(name))).toEqual([]);
});

it('a channel of the eight lit fibres alone is the same service', () => {
  const eight = parallel('reversed', 'reversed', 'reversed')
    .replace('link        KQ-T\n', 'link        KQ-T fibres 1..4, 9..12\n')
    .replace('carries     40GBASE-SR4 fibres 1..4, 9..12', 'carries     40GBASE-SR4');
  const result = judged(eight).link('KQ-C');
  expect(result.arrivals.map(({ place }) => place)).toEqual([8, 7, 6, 5, 4, 3, 2, 1]);
  expect(doubts(result).filter((name) => about.has(name))).toEqual([]);
});

describe('eight of twelve positions', () => {
  const trunk = (rows: string) => `${plan}
setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  launch      encircled-flux
  cord        L1 launch MPO-12 OM4 reference-grade
  cord        R1 receive MPO-12 OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

link KQ-T {
  fibres      1..12
  connector   MPO-12
  segment     72 m OM4 map reversed
  connector   MPO-12
  spare       5..8
  carries     40GBASE-SR4 fibres 1..4, 9..12 cords 3 m, 3 m
}

readings KQ-T {
  setup       ONE
  tested      2026-03-14 09:00 to 09:40
  values      loss in dB
  columns fibre, 850 nm A>B
${rows}
}
`;
  const rows = (losses: Readonly<Record<number, string>>) =>
    Object.entries(losses)
      .map(([fibre, loss]) => `  ${fibre}  ${loss}`)
      .join('\n');
  const lit = {
    1: '0.61',
    2: '0.62',
    3: '0.60',
    4: '0.63',
    9: '0.64',
    10: '0.61',
    11: '0.62',
    12: '0.60',
  };

  it('a dark position that fails fails the trunk, not what it carries', () => {
    const result = judged(trunk(rows({ ...lit, 5: '0.61', 6: '2.40', 7: '0.62', 8: '0.60' }))).link(
      'KQ-T',
    );
    expect(result.verdict).toBe('fail');
    expect(result.accepted).toBe(false);
    expect(result.fibres.find(({ fibre }) => fibre === 6)?.verdict).toBe('fail');
    expect(result.applications[0]?.support).not.toBe('not supported');
  });

  it('the lit positions alone leave four of twelve untested', () => {
    const result = judged(trunk(rows(lit))).link('KQ-T');
    expect(result.accepted).toBe(false);
    expect(result.counts.untested).toBe(4);
    expect(result.applications[0]?.support).not.toBe('not supported');
  });
});
