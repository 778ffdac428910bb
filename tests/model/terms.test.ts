/** What is wanted of a link: the nearest decides, and what adds up adds up. */
import { describe, expect, test } from 'vitest';
import { planOf } from './plan.ts';

const path = 'fibres      1..2\n  connector   LC\n  segment     60 m OM4\n  connector   LC';
const single =
  'fibres      1..2\n  connector   SC-APC\n  segment     60 m OS2\n  connector   SC-APC';

function terms(plan: string, entries: string, fibre = path) {
  return planOf(`plan "P" {\n  ${plan}\n}\n`, `link KQ-1 {\n  ${fibre}\n  ${entries}\n}\n`).link(
    'KQ-1',
  ).terms;
}

describe('the nearest decides', () => {
  test('the link before the plan', () => {
    const plan =
      'measure     850 nm\n  margin      1 dB\n  reference   two-cord\n  directions  both';
    const own = terms(
      plan,
      'measure     1300 nm\n  margin      2 dB\n  reference   one-cord\n  directions  B>A',
    );
    expect(own).toMatchObject({
      measure: [1_300_000],
      margin: 2_000_000,
      reference: 'one-cord',
      directions: { wanted: ['B>A'] },
    });
    expect(terms(plan, 'note        "x"')).toMatchObject({
      measure: [850_000],
      margin: 1_000_000,
      reference: 'two-cord',
      directions: { wanted: ['A>B', 'B>A'] },
    });
  });

  test('the row, then its table, then its pattern, then the plan', () => {
    const plan = planOf(`plan "P" {
  margin      1 dB
  measure     850 nm
  reserve     splices 1
  reserve     repairs 2
}
pattern leaf {
  fibres      1..2
  connector   LC
  segment     <length> OM4
  connector   LC
  margin      2 dB
  measure     1300 nm
}
links as leaf {
  margin      3 dB
  reserve     splices 4
  columns link,   length in m,  margin in dB
  L-1             5             4
  L-2             5             -
}
`);
    expect(plan.findings()).toEqual([]);
    expect(plan.link('L-1').terms.margin).toBe(4_000_000);
    expect(plan.link('L-2').terms).toMatchObject({
      margin: 3_000_000,
      measure: [1_300_000],
      reserve: { splices: 4, repairs: 2, ageing: 0 },
    });
  });

  test('and of one block the most exact: a fibre, then a mode, then what holds for all', () => {
    const plan =
      'measure     1550 nm\n  measure     850 nm, 1300 nm for multimode\n  measure     1310 nm for OS2\n  measure     1625 nm for single-mode';
    expect(terms(plan, 'note        "x"').measure).toEqual([850_000, 1_300_000]);
    expect(terms(plan, 'note        "x"', single).measure).toEqual([1_310_000]);
    expect(terms('measure     850 nm for multimode', 'note        "x"', single).measure).toEqual(
      [],
    );
    // What is nearer but for other fibres does not hold.
    expect(terms('measure     850 nm', 'measure     1310 nm for single-mode').measure).toEqual([
      850_000,
    ]);
  });

  test('a mean of two directions, and how far they may differ', () => {
    expect(terms('directions  both average within 0.3 dB', 'note        "x"').directions).toEqual({
      wanted: ['A>B', 'B>A'],
      average: true,
      within: 300_000,
    });
  });
});

describe('what adds up', () => {
  const plan = 'limits      TIA-568.3-E\n  carries     10GBASE-SR\n  require     loss 2 dB';

  test('is the link’s and the plan’s', () => {
    const own = terms(
      plan,
      'carries     1000BASE-SX beside\n  require     loss 1.5 dB wavelength 850 nm sufficient\n  require     seen',
    );
    expect(own.carries.map(({ name, beside }) => [name, beside])).toEqual([
      ['1000BASE-SX', true],
      ['10GBASE-SR', false],
    ]);
    expect(own.require).toMatchObject([
      { kind: 'loss', loss: 1_500_000, wavelength: 850_000, sufficient: true },
      { kind: 'seen' },
      { kind: 'loss', loss: 2_000_000, sufficient: false },
    ]);
    expect(own.limits.map(({ name }) => name)).toEqual(['TIA-568.3-E']);
  });

  test('and with only, the link’s alone', () => {
    const text = `limits OWN {\n  connector   any 0.5 dB\n}\nplan "P" {\n  ${plan}\n}\n`;
    const both = planOf(text, `link KQ-1 {\n  ${path}\n  limits      OWN\n}\n`).link('KQ-1');
    expect(both.terms.limits.map(({ name }) => name)).toEqual(['OWN', 'TIA-568.3-E']);
    const only = planOf(text, `link KQ-1 {\n  ${path}\n  limits      only OWN\n}\n`).link('KQ-1');
    expect(only.terms.limits.map(({ name }) => name)).toEqual(['OWN']);
    expect(only.terms.carries).toHaveLength(1);
  });
});

test('a list with one name taken over again keeps the others', () => {
  const plan = planOf(`limits A {
  connector   LC, SC 0.75 dB
  fibre       OM3, OM4 850 nm 3.5 dB/km
}
limits B {
  like        A
  connector   LC 0.5 dB
  fibre       OM4 850 nm 3.0 dB/km
}
link KQ-1 {
  ${path}
  limits      B
}
`);
  const [limits] = plan.link('KQ-1').terms.limits;
  expect(limits?.connector.map(({ connector, loss }) => [connector, loss])).toEqual([
    ['LC', 500_000],
    ['SC', 750_000],
  ]);
  expect(limits?.fibre.map(({ fibre, rate }) => [fibre, rate])).toEqual([
    ['OM4', 3_000_000],
    ['OM3', 3_500_000],
  ]);
});

test('a fibre meets others, directly and through them, and takes their greatest rate where it names none', () => {
  const plan = planOf(`fibre A {
  mode        single-mode
  attenuation 1310 nm typ 0.3 dB/km max 0.4 dB/km
}
fibre B {
  meets       A
  mode        single-mode
  attenuation 1550 nm max 0.3 dB/km
}
fibre C {
  meets       B
  mode        single-mode
}
link KQ-1 {
  fibres      1
  connector   LC
  segment     1 km C
  connector   LC
}
`);
  const segment = plan.link('KQ-1').path[1];
  const fibre = segment?.kind === 'segment' ? segment.fibre : undefined;
  expect(fibre?.meets).toEqual(['B', 'A']);
  expect(fibre?.attenuation.map(({ wavelength, typ, max }) => [wavelength, typ, max])).toEqual([
    [1_550_000, undefined, 300_000],
    [1_310_000, undefined, 400_000],
  ]);
});

test('dead and spare fibres, and what is silenced', () => {
  const plan = planOf(
    `link KQ-1 {\n  ${path.replace('1..2', '1..4')}\n  spare       3\n  dead        4 because "broken in the duct"\n  silence     category-step because "checked" by "R. Vale"\n}\n`,
  );
  expect(plan.link('KQ-1')).toMatchObject({
    spare: [3],
    dead: [{ fibre: 4, because: 'broken in the duct' }],
    silence: [{ finding: 'category-step', because: 'checked', by: 'R. Vale' }],
  });
});

test('a length of a cable holds its slack, a length in feet is exact, unknown is none on purpose', () => {
  const plan = planOf(`cable C-1 {
  fibre       OM4
  count       24 tubes 2
  length      100 ft
  slack       5 m at "chamber 4"
  slack       3 m
  excess      1.5 %
}
link KQ-1 {
  fibres      1..12
  connector   LC
  segment     C-1 tube 2
  splice      fusion
  segment     unknown OM4
  connector   LC
}
`);
  expect(plan.findings()).toEqual([]);
  const [, trunk, , tail] = plan.link('KQ-1').path;
  // 100 ft = 30.48 m exactly (international foot, NIST SP 811), and 8 m of slack.
  expect(trunk).toMatchObject({ length: 38_480_000, cable: { slack: 8_000_000, excess: 15_000 } });
  expect(trunk?.kind === 'segment' && trunk.cableFibres).toEqual([
    13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24,
  ]);
  expect(tail).toMatchObject({ length: 0, deliberate: true });
});
