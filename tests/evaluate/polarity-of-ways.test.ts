/**
 * Which way round light comes out of ways and arrays: spans and long ways of a
 * ring, and keys of array pairs against the map between them.
 *
 * An odd number of crossings from equipment to equipment: two cabling makers'
 * guides after ISO/IEC 11801 and EN 50173. Keys of trunks of types A, B and C of
 * TIA-568, and that A and B differ by one turned housing: a component supplier's
 * and a cable supplier's page. The plans are ours.
 */
import { describe, expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

const head = `plan "Ways" {
  limits      TIA-568.3-E
  measure     1310 nm
  reference   one-cord
  uncertainty 0.20 dB
}

application LINE {
  count       2
  wavelength  1310 nm
  fibre       G.652.D loss 30 dB
}
`;

const names = ['North', 'East', 'South', 'West'];
const about = new Set([
  'pair-order-broken',
  'arrives-at-wrong-pair',
  'comes-out-elsewhere',
  'crossing-not-said',
]);

interface Ring {
  readonly nodes: number;
  /** Cords at the two ends of each span. */
  readonly cords?: readonly [string, string];
  readonly through?: string;
  readonly map?: string;
  readonly bare?: boolean;
}

function said({ nodes, cords = ['crossed', 'straight'], through = '', map = '', bare }: Ring) {
  const spans = names.slice(0, nodes);
  const cord = (crossing: string) => (bare ? '' : `  cord        2 m G.652.D ${crossing}\n`);
  const { findings } = judge(`${head}
${spans
  .map(
    (name) => `link ${name.toUpperCase()} {
  fibres      1..2
  connector   LC
  segment     2 km G.652.D${map}
  connector   LC
}
`,
  )
  .join('\n')}
ring HARBOUR {
${spans
  .map(
    (name) =>
      `  node        "${name}" through 3 m G.652.D${through}\n${cord(cords[0])}  link        ${name.toUpperCase()} fibres 1..2\n${cord(cords[1])}`,
  )
  .join('')}  carries     LINE
}
`);
  return findings.filter(({ name }) => about.has(name)).map((one) => `${one.name}: ${one.message}`);
}

describe('ways round a ring', () => {
  it('a span that crosses once is right', () => {
    expect(said({ nodes: 4 })).toEqual([]);
  });

  it('a span that crosses twice, or not at all, lets transmitter meet transmitter: said of each span alone', () => {
    for (const cords of [
      ['crossed', 'crossed'],
      ['straight', 'straight'],
    ] as const) {
      const found = said({ nodes: 4, cords, through: ' straight' });
      expect(found).toHaveLength(4);
      expect(found[0]).toContain(
        'pair-order-broken: What HARBOUR, North to East sends at place 1 arrives at place 1',
      );
    }
  });

  it('the long way over three spans and straight cords crosses three times: right', () => {
    expect(said({ nodes: 4, through: ' straight' })).toEqual([]);
  });

  it('over two spans it crosses twice, which a cord that lets by has to put right: said once for all', () => {
    const [found, ...rest] = said({ nodes: 3, through: ' straight' });
    expect(rest).toEqual([]);
    expect(found).toContain(
      'What HARBOUR, East to North, the long way, and 2 more sends at place 1 arrives at place 1',
    );
    expect(said({ nodes: 3, through: ' crossed' })).toEqual([]);
    // Three spans and two cords that cross are five.
    expect(said({ nodes: 4, through: ' crossed' })).toEqual([]);
  });

  it('a cord that lets by and does not say leaves the long way open, and is asked for nothing', () => {
    expect(said({ nodes: 3 })).toEqual([]);
  });

  it('without the cords to the equipment nothing is known', () => {
    expect(said({ nodes: 4, bare: true, through: ' straight' })).toEqual([]);
  });

  it('a pair that a span turns round counts as a crossing', () => {
    const found = said({ nodes: 4, map: ' map 2, 1' });
    expect(found).toHaveLength(4);
    expect(found[0]).toContain('pair-order-broken');
    expect(said({ nodes: 4, map: ' map 2, 1', cords: ['straight', 'straight'] })).toEqual([]);
  });
});

describe('keys of arrays', () => {
  const keys = (first: string, second: string, map: string, kind = 'MPO-12') =>
    judge(`${head}
link TRUNK-1 {
  fibres      1..12
  connector   ${kind}${first && ` key ${first}`}
  segment     30 m OM4${map && ` map ${map}`}
  splice      fusion
  segment     30 m OM4
  connector   ${kind}${second && ` key ${second}`}
}
`)
      .findings.filter(({ name }) => name === 'keys-contradict-map')
      .map(({ message }) => message);

  it.each([
    ['same', 'same', 'reversed'],
    ['opposed', 'opposed', 'straight'],
    ['opposed', 'opposed', ''],
    ['opposed', 'opposed', 'pairs-swapped'],
    ['opposed', '', 'reversed'],
    ['', 'same', 'straight'],
    ['same', 'same', '2, 1, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12'],
  ])('%s and %s round a stretch that is %s: nothing is said', (first, second, map) => {
    expect(keys(first, second, map)).toEqual([]);
  });

  it.each([
    ['same', 'opposed', 'reversed', 'one turned housing'],
    ['opposed', 'same', '', 'one turned housing'],
    ['opposed', 'opposed', 'reversed', 'reversed has keys same'],
    ['same', 'same', 'straight', 'straight has keys opposed'],
    ['same', 'same', 'pairs-swapped', 'with its pairs swapped has keys opposed'],
  ])('%s and %s round a stretch that is %s: %s', (first, second, map, part) => {
    const [message, ...rest] = keys(first, second, map);
    expect(rest).toEqual([]);
    expect(message).toContain(part);
  });

  it('kinds of one fibre have none', () => {
    expect(keys('same', 'opposed', 'reversed', 'LC')).toEqual([]);
  });
});
