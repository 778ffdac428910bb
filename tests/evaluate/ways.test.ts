/** Ways of light: figures of a splitter output by output, the least it loses, ways of the same parts, a channel to one end. */
import { describe, expect, it } from 'vitest';
import { toNanometres } from '../../grammar/src/quantity/index.ts';
import type { LinkResult, WayResult } from '../../server/src/evaluate/index.ts';
import { decodeFile } from '../../server/src/project/index.ts';
import { exact, judged } from '../published/judged.ts';
import { findingsOf, judge, planUri } from '../support/judge.ts';

const head = `plan "Ways" {
  limits      CASE
  measure     1310 nm, 1550 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.20 dB/km typ 0.30 dB/km max 0.40 dB/km
  attenuation 1550 nm min 0.10 dB/km typ 0.20 dB/km max 0.30 dB/km
}

connector PAIR {
  loss        typ 0.2 dB max 0.5 dB
}

splice WELD {
  loss        typ 0.05 dB max 0.1 dB
}

application SERVICE {
  count       1
  wavelength  1310 nm A>B
  fibre       GLASS reach 20 km loss 25 dB min 5 dB differential 9 dB
}
`;

const limits = (more = '') => `
limits CASE {
  policy      counting
  fibre       GLASS 1310 nm 0.40 dB/km
  fibre       GLASS 1550 nm 0.30 dB/km
  connector   any 0.5 dB
  splice      any 0.1 dB
${more}}
`;

const splitter = (...lines: readonly string[]) =>
  `\nsplitter FOUR {\n  ports       1:4\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** Four ends behind one splitter, 2 km and two pairs and two splices to each. */
const tree = (outs = 'out         1..4 to E-1, E-2, E-3, E-4 as drop length 1000 m') => `
pattern drop {
  splice      WELD
  segment     <length> GLASS
  connector   PAIR
}

link TREE {
  from        A:1
  connector   PAIR
  segment     1000 m GLASS
  splice      WELD
  split SP FOUR {
    ${outs}
  }
  carries     SERVICE
}
`;

/** Fibre, pairs and splices alone: 0.8 + 1.0 + 0.2 at 1310 nm, 0.6 + 1.2 at 1550 nm. */
const worst = (result: LinkResult, end: number) =>
  result.ways[end - 1]?.wavelengths.map((at) => [toNanometres(at.wavelength), exact(at.worst)]);
const light = (result: LinkResult, end: number) => {
  const [first] = result.ways[end - 1]?.applications[0]?.light ?? [];
  return [exact(first?.greatest), exact(first?.least)];
};
const made = (...texts: readonly string[]) => judged([head, ...texts].join('')).link('TREE');

describe('the figure of an output', () => {
  it('is its own where it has one, else the splitter’s, at its wavelength where said', () => {
    const result = made(
      limits(),
      splitter(
        'loss        max 7.4 dB',
        'loss        out 2 max 9 dB',
        'loss        out 3 wavelength 1550 nm max 8 dB',
      ),
      tree(),
    );
    expect(worst(result, 1)).toEqual([
      [1310, '9.4'],
      [1550, '9.2'],
    ]);
    expect(worst(result, 2)).toEqual([
      [1310, '11'],
      [1550, '10.8'],
    ]);
    expect(worst(result, 3)).toEqual([
      [1310, '9.4'],
      [1550, '9.8'],
    ]);
  });

  it('is that of the limits where they name the splitter', () => {
    const result = made(
      limits('  part        FOUR 7 dB\n'),
      splitter('loss        max 7.4 dB'),
      tree(),
    );
    const [at] = result.ways[0]?.wavelengths ?? [];
    expect([exact(at?.governing?.value), exact(at?.worst)]).toEqual(['9', '9.4']);
    expect(at?.governing?.terms.find(({ what }) => what === 'splitter FOUR')?.source).toBe(
      'CASE, part FOUR',
    );
  });

  it('makes that end the worst whose least margin over all wavelengths is least', () => {
    // 7.0 dB are allowed: −0.5 and 1.0 dB are left to the first end, −0.2 dB to the others.
    const figures = splitter(
      'loss        out 1 wavelength 1310 nm max 7.5 dB',
      'loss        out 1 wavelength 1550 nm max 6.0 dB',
      'loss        out 2..4 max 7.2 dB',
    );
    const text = head + limits('  part        FOUR 7.0 dB\n') + figures + tree();
    expect(judged(text).link('TREE').worstWay).toBe('E-1');
  });

  it('missing, leaves no limit, and is said once', () => {
    const { plan, findings } = judge(
      [head, limits(), splitter('loss        out 1..3 max 7 dB'), tree()].join(''),
    );
    const result = plan.result.link('TREE');
    expect(result?.ways.map(({ wavelengths }) => wavelengths[0]?.governing?.kind)).toEqual([
      'components',
      'components',
      'components',
      'application',
    ]);
    expect(findings.filter(({ name }) => name === 'limit-missing')).toMatchObject([
      {
        message: expect.stringContaining(
          'no limit at 1310 nm, 1550 nm: CASE has no figure for output 4 of FOUR.',
        ),
      },
    ]);
    expect(result?.worstWay).toBe('E-1');
  });
});

describe('the spread of an output', () => {
  /** What is kept, the parts that are spread, and mean + 3 sigma, of each end at 1310 nm. */
  const spreads = (...lines: readonly string[]) =>
    made(limits(), splitter(...lines), tree()).ways.map(({ wavelengths: [first] }) => [
      exact(first?.percentile?.kept),
      first?.percentile?.parts.map(({ assumed }) =>
        assumed.replace(/^a gamma distribution of /u, ''),
      ),
    ]);

  it('is its own where it states one, whichever stands first, else that of the splitter', () => {
    const of = [
      'loss        typ 6.6 dB max 7.4 dB sigma 0.3 dB',
      'loss        out 1 typ 6.5 dB max 7 dB sigma 0.2 dB',
    ];
    // Fibre, pairs and splices at their greatest: 0.8 + 1.0 + 0.2.
    const [own, all] = ['mean 6.5 dB and sigma 0.2 dB', 'mean 6.6 dB and sigma 0.3 dB'].map(
      (assumed) => ['2', [assumed]],
    );
    expect(spreads(...of)).toEqual([own, all, all, all]);
    expect(spreads(...of.toReversed())).toEqual([own, all, all, all]);
  });

  it('is made of what it states and, for what it does not, of what all do', () => {
    const [first] = spreads(
      'loss        typ 6.6 dB max 7.4 dB sigma 0.3 dB',
      'loss        out 1 typ 6.5 dB',
    );
    expect(first).toEqual(['2', ['mean 6.5 dB and sigma 0.3 dB']]);
  });

  it('is none where neither states one: then it counts at its greatest, and nothing is spread', () => {
    const [first, second] = spreads(
      'loss        out 1 typ 6.5 dB max 7 dB sigma 0.2 dB',
      'loss        out 2..4 max 7.4 dB',
    );
    expect(first).toEqual(['2', ['mean 6.5 dB and sigma 0.2 dB']]);
    expect(second).toEqual([undefined, undefined]);
  });

  it('is of its wavelength where it states one', () => {
    const [first] = spreads(
      'loss        out 1 typ 6.5 dB max 7 dB sigma 0.2 dB',
      'loss        out 1 wavelength 1310 nm typ 6.7 dB max 7 dB sigma 0.1 dB',
      'loss        out 2..4 max 7.4 dB',
    );
    expect(first).toEqual(['2', ['mean 6.7 dB and sigma 0.1 dB']]);
  });

  it('stands beside its mean as three sigma of its own', () => {
    // Glass of 0.30 dB/km, pairs of 0.2 dB and splices of 0.05 dB as a rule, all without a spread.
    const sure = head.replace(/typ (\S+) (dB\S*) max \S+ dB\S*/gu, '$& sigma 0 $2');
    const [own, all] = [
      'loss        out 1 typ 6.5 dB max 7 dB sigma 0.2 dB',
      'loss        typ 6.6 dB max 7.4 dB sigma 0.3 dB',
    ];
    for (const lines of [
      [own!, all!],
      [all!, own!],
    ]) {
      const { ways } = judged([sure, limits(), splitter(...lines), tree()].join('')).link('TREE');
      expect(ways.map(({ wavelengths: [first] }) => exact(first?.statistical)).slice(0, 2)).toEqual(
        [
          // 2 · 0.3 + 2 · 0.2 + 2 · 0.05 + 6.5 + 3 · 0.2, and + 6.6 + 3 · 0.3.
          '8.2',
          '8.6',
        ],
      );
    }
  });
});

describe('the least that an output loses', () => {
  it('is the even split where nothing is stated: 10·log10 4 and the fibre', () => {
    expect(light(made(limits(), splitter('loss        max 7.4 dB'), tree()), 1)).toEqual([
      '9.4',
      '6.4206',
    ]);
  });

  it('is what is stated', () => {
    const stated = splitter('loss        min 6.5 dB max 7.4 dB');
    expect(light(made(limits(), stated, tree()), 1)).toEqual(['9.4', '6.9']);
  });

  it('is nothing on an output of an uneven splitter that does not state it', () => {
    const uneven = splitter(
      'loss        out 1 max 3 dB',
      'loss        out 2..4 min 8 dB max 11 dB',
    );
    const result = made(limits(), uneven, tree());
    expect(light(result, 1)).toEqual(['5', '0.4']);
    expect(light(result, 2)).toEqual(['13', '8.4']);
    expect(result.ways[0]?.applications[0]).toMatchObject({
      support: 'not supported',
      because: 'it may lose too little, 0.40 dB at the least',
    });
  });
});

describe('ways of the same parts', () => {
  it('are worked out once, and others apart', () => {
    const result = made(
      limits(),
      splitter('loss        max 7.4 dB', 'loss        out 3 max 8 dB'),
      tree(`out         1..3 to E-1, E-2, E-3 as drop length 1000 m
    out         4 to E-4 as drop length 2000 m`),
    );
    const [one, two, three, four] = result.ways;
    expect(one?.wavelengths).toBe(two?.wavelengths);
    expect(three?.wavelengths).not.toBe(one?.wavelengths);
    expect(four?.length).toBe(3_000_000_000);
    expect(result.length).toBe(3_000_000_000);
  });
});

describe('how far ends lie apart', () => {
  const uneven = splitter(
    'loss        out 1 min 2 dB max 3 dB',
    'loss        out 2..4 min 8 dB max 11 dB',
  );

  it('is the greatest of one less the least of another, never of the same', () => {
    const result = made(limits(), uneven, tree());
    expect(result.applications[0]?.differential).toMatchObject({ highest: 'E-2', lowest: 'E-1' });
    expect(exact(result.applications[0]?.differential?.value)).toBe('10.6');
    const alone = made(
      limits(),
      uneven,
      tree('out         2 to E-2 as drop length 1000 m\n    out         1, 3..4 spare'),
    );
    expect(alone.applications[0]?.differential).toBeUndefined();
  });

  it('is nothing that an end left out of the service is asked for', () => {
    const some = made(
      limits(),
      uneven,
      tree().replace('carries     SERVICE', 'carries     SERVICE fibres 2..4'),
    );
    expect(exact(some.applications[0]?.differential?.value)).toBe('4.6');
    expect(some.ways[0]?.applications).toEqual([]);
  });
});

describe('what an application asks', () => {
  it('is told for each thing, of the end that fails it most', () => {
    const outs = `out         1 to E-1 as drop length 500 m
    out         2 to E-2 as drop length 1000 m
    out         3 to E-3 as drop length 3000 m
    out         4 to E-4 as drop length 4000 m`;
    const strict = head.replace(
      'reach 20 km loss 25 dB min 5 dB',
      'reach 3 km loss 10 dB min 6.4 dB',
    );
    const { findings } = judged(
      [strict, limits(), splitter('loss        max 8 dB'), tree(outs)].join(''),
    );
    const said = findings.filter(
      ({ name }) => name.startsWith('application') || name === 'reach-exceeded',
    );
    expect(said.map(({ name, message }) => `${name}: ${message}`).sort()).toEqual([
      expect.stringContaining('TREE does not support SERVICE: E-4 and 1 more: '),
      expect.stringContaining('asks for 6.40 dB at least, and E-1 may lose as little as 6.32 dB'),
      expect.stringContaining('and the path (E-4 and 1 more) is 5000 m, 2000 m more'),
    ]);
  });
});

describe('readings of an end', () => {
  const read = (loss: string) => `
setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS reference-grade
  cord        R1 receive PAIR GLASS reference-grade verified 0.10 dB
  taken       2026-03-14 08:00 1310 nm -3.00 dBm
}

readings TREE {
  setup       ONE
  tested      2026-03-14 09:00
  values      loss in dB
  columns end, 1310 nm A>B
  E-2             ${loss}
}
`;
  const wide = splitter('loss        max 7.4 dB');

  it('bear the service from then on, of that end alone', () => {
    const { link } = judged([head, limits(), wide, tree(), read('8.1')].join(''));
    expect(link('TREE').ways.map(({ applications }) => applications[0]?.support)).toEqual([
      'by design',
      'predicted',
      'by design',
      'by design',
    ]);
  });

  it('may lose too little for it though no limit is broken', () => {
    const { link, findings } = judged([head, limits(), wide, tree(), read('4.2')].join(''));
    expect(link('TREE').fibres[1]?.current.map(({ verdict }) => verdict)).toContain('pass');
    expect(link('TREE').ways[1]?.applications[0]?.support).toBe('not supported');
    const [low] = findings.filter(({ name }) => name === 'application-loss-too-low');
    expect(low?.message).toContain('asks for 5.00 dB at least, and E-2 loses 4.20 dB');
  });

  it('see no light: that end does not bear it', () => {
    const { link } = judged([head, limits(), wide, tree(), read('dark')].join(''));
    expect(link('TREE').ways[1]?.applications[0]).toMatchObject({
      support: 'not supported',
      because: 'no light on E-2',
    });
    expect(link('TREE').applications[0]).toMatchObject({ way: 'E-2', support: 'not supported' });
  });
});

describe('a repair behind the splitter', () => {
  const put = `  repair REP-1 {
    fibres      2
    on          2026-05-02
    splice      WELD
    segment     100 m GLASS
    splice      WELD
  }
`;
  const wide = splitter('loss        max 7.4 dB');

  it('makes the way to its end longer, and no other', () => {
    const before = made(limits(), wide, tree());
    const after = made(limits(), wide, tree().replace('  carries ', `${put}  carries `));
    // Two splices of 0.1 dB, and 0.40 and 0.30 dB/km over 100 m.
    expect(worst(before, 2)).toEqual([
      [1310, '9.4'],
      [1550, '9.2'],
    ]);
    expect(worst(after, 2)).toEqual([
      [1310, '9.64'],
      [1550, '9.43'],
    ]);
    for (const end of [1, 3, 4]) expect(worst(after, end)).toEqual(worst(before, end));
    expect([light(before, 2)[0], light(after, 2)[0], light(after, 3)[0]]).toEqual([
      '9.4',
      '9.64',
      '9.4',
    ]);
  });
});

describe('a channel to one end', () => {
  const channel = `
channel SERVICE-2 {
  cord        3 m GLASS straight
  link        TREE fibres 2
  cord        2 m GLASS straight
  carries     SERVICE
}
`;
  const uneven = splitter('loss        out 1 max 3 dB', 'loss        out 2..4 min 8 dB max 11 dB');

  it('takes the way to that end, and leaves the others to theirs', () => {
    const { link } = judged([head, limits(), uneven, tree(), channel].join(''));
    const crossed = link('SERVICE-2').applications[0]?.light[0];
    // 13 and the cords: 0.4 dB/km over 5 m.
    expect([exact(crossed?.greatest), exact(crossed?.least)]).toEqual(['13.002', '8.401']);
    const [one, two] = link('TREE').ways;
    const own = (way: WayResult | undefined) =>
      way?.wavelengths[0]?.limits.find(({ kind }) => kind === 'application')?.terms.length;
    expect([own(one), own(two)]).toEqual([1, 2]);
  });
});

describe('a service at a wavelength where nothing is known of the fibre', () => {
  const outs = 'out         1..4 to E-1, E-2, E-3, E-4 as drop length 1000 m';
  const dark = head.replace('1310 nm A>B', '1490 nm A>B\n  wavelength  1310 nm B>A');

  it('is not known to lose too much, and the sentence names that wavelength', () => {
    const plan = judged(
      [dark, limits(), splitter('loss        min 7 dB max 7.4 dB'), tree(outs)].join(''),
    );
    const [service] = plan.link('TREE').ways[0]?.applications ?? [];
    expect(service?.support).toBe('not supported');
    expect(service?.because).toBe('its loss at 1490 nm is not known');
    expect(plan.findings.map(({ name }) => name)).not.toContain('application-loss-exceeded');
  });
});

describe('a ring follows its spans', () => {
  const links = (length: number) =>
    [length, 2000]
      .map(
        (metres, index) => `
link S-${index + 1} {
  fibres      1..2
  connector   PAIR
  segment     ${metres} m GLASS
  connector   PAIR
}
`,
      )
      .join('');
  const ring = `
ring RING {
  node        "North"
  link        S-1
  node        "South"
  link        S-2
  carries     SERVICE
}
`;

  it('when one of them is changed', () => {
    const text = (length: number) => [head, limits(), links(length), ring].join('');
    const { project, plan } = judge(text(1000));
    const worstOf = () =>
      plan.result.link('RING')?.ways.map((way) => [way.name, exact(way.wavelengths[0]?.worst)]);
    expect(worstOf()?.[0]).toEqual(['North to South', '1.4']);
    project.put(planUri, decodeFile(new TextEncoder().encode(text(5000))));
    expect(worstOf()?.[0]).toEqual(['North to South', '3']);
    expect(plan.result.link('RING')?.worstWay).toBe('North to South, the long way');
    expect(findingsOf(plan).map(({ name }) => name)).toEqual(
      findingsOf(judge(text(5000)).plan).map(({ name }) => name),
    );
  });
});

it('a way that is over what is required of it is named, each by itself', () => {
  const parts = splitter('loss        max 7.2 dB');
  const far =
    'out         1 to E-1 as drop length 9000 m\n    out         2..4 to E-2, E-3, E-4 as drop length 1000 m';
  const text = `${head}${limits()}${parts}${tree(far).replace(
    '  carries     SERVICE\n',
    '  require     loss 11 dB\n',
  )}`;
  const over = judged(text).findings.filter(({ name }) => name === 'budget-over-limit');
  // 0.4 dB/km over 10 km, two pairs, two splices and 7.2 dB: 12.4 dB; the other ways have 9.2 dB.
  expect(over.map(({ details }) => [details.way, details.worst])).toEqual([['E-1', 12.4]]);
  expect(over[0]?.message).toContain('the path (E-1) has 12.40 dB at 1310 nm');
});
