/** Whole plans in the notation, from text to model: what a designer and a tester write is what the model holds. */
import { describe, expect, test } from 'vitest';
import { evidenceOf, planSettings } from '../../server/src/model/api.ts';
import { planOf } from './plan.ts';

const backbone = `plan "Kestrel Quay ferry terminal: backbone" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  decision    flagged
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}

link KQ-OPS-B3 "Operations room to berth 3" {
  from        OPS/R2/A:01..12
  to          B3/R1/A:01..12
  connector   LC
  segment     C-101 fibres 1..12
  splice      fusion at "closure under ramp 3"
  segment     38 m OM4
  connector   LC
  carries     10GBASE-SR
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A, remark
  1                1.12        1.15        0.84         0.80
  2                1.31        -           0.92         0.95
  3                2.66        2.63        1.44         1.41
  4              dark        dark        dark         dark         "patched at the wrong cabinet?"
}

work KQ-OPS-B3 {
  done        cleaned
  fibres      3
  on          2026-03-14 10:20
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 10:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  3                2.60        2.57        1.40         1.38
}

concession KQ-OPS-B3 {
  fibres      3
  wavelength  850 nm
  accepted    2.61 dB
  because     "spare fibre, closure rework booked for the winter overhaul"
  by          "M. Ashdown" on 2026-03-20
}
`;

/** Minutes since 1970 of a time of day on 14 March 2026, from the day number 20,526. */
const march14 = (hours: number, minutes: number) => 20_526 * 1440 + hours * 60 + minutes;

describe('a backbone, its set-up, its readings', () => {
  const plan = planOf(backbone);

  test('reads without a finding', () => {
    expect(plan.notation).toEqual([]);
    expect(plan.findings()).toEqual([]);
  });

  test('holds the path in order, lengths in micrometres', () => {
    const link = plan.link('KQ-OPS-B3');
    expect(link.title).toBe('Operations room to berth 3');
    expect(link.path.map(({ kind }) => kind)).toEqual([
      'connector',
      'segment',
      'splice',
      'segment',
      'connector',
    ]);
    const [, trunk, splice, tail] = link.path;
    expect(trunk).toMatchObject({ length: 142_000_000, fibreName: 'OM4', deliberate: false });
    expect(trunk?.kind === 'segment' && trunk.cableFibres).toEqual(
      [...Array(12).keys()].map((n) => n + 1),
    );
    expect(splice).toMatchObject({ name: 'fusion', at: 'closure under ramp 3' });
    expect(tail).toMatchObject({ length: 38_000_000, fibreName: 'OM4' });
    expect(link.mode).toBe('multimode');
    expect(link.fibres).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(link.from.at(-1)).toBe('OPS/R2/A:12');
    expect(link.to[0]).toBe('B3/R1/A:01');
  });

  test('takes from the plan what it does not say itself', () => {
    const { terms } = plan.link('KQ-OPS-B3');
    expect(terms.measure).toEqual([850_000, 1_300_000]);
    expect(terms.directions).toEqual({ wanted: ['A>B', 'B>A'], average: false });
    expect(terms.reference).toBe('one-cord');
    expect(terms.limits.map(({ name }) => name)).toEqual(['TIA-568.3-E']);
    expect(terms.carries.map(({ name, application }) => [name, application?.count])).toEqual([
      ['10GBASE-SR', 2],
    ]);
  });

  test('holds the set-up with its cords and references in order of time', () => {
    const setup = plan.setup('MM-1');
    expect(setup).toMatchObject({ reference: 'one-cord', direct: false });
    expect(setup.source).toMatchObject({ text: 'S-3', light: 'LED', due: { text: '2027-01-12' } });
    expect(setup.meter?.floor).toBe(-60_000_000);
    expect(
      setup.cords.map(({ name, role, grade, verified }) => [name, role, grade, verified]),
    ).toEqual([
      ['TC-1', 'launch', 'reference-grade', undefined],
      ['TC-2', 'receive', 'reference-grade', 80_000],
    ]);
    expect(setup.events).toMatchObject([
      { kind: 'taken', wavelength: 850_000, power: -20_050_000, at: { from: march14(8, 10) } },
      { kind: 'taken', wavelength: 1_300_000, power: -20_310_000, at: { to: march14(8, 10) } },
    ]);
  });

  test('holds readings as typed, their time anywhere within tested', () => {
    const { readings, absences, work, concessions } = evidenceOf('KQ-OPS-B3', plan.scope);
    expect(readings).toHaveLength(4 * 4 - 1 + 4);
    expect(readings[0]).toMatchObject({
      object: 'KQ-OPS-B3',
      fibre: 1,
      quantity: 'loss',
      wavelength: 850_000,
      direction: 'A>B',
      typed: { digits: '1.12', unit: 'dB' },
      loss: 1_120_000,
      setup: 'MM-1',
      by: 'R. Vale',
      at: { from: march14(9, 5), to: march14(9, 40), text: '2026-03-14 09:05 to 09:40' },
    });
    expect(plan.textAt(readings[0]!.place)).toBe('1.12');
    // An empty cell without a remark is neither a reading nor an absence.
    expect(readings.filter(({ fibre }) => fibre === 2)).toHaveLength(3);
    expect(absences).toEqual([]);
    const dark = readings.filter(({ typed }) => typed === 'dark');
    expect(dark.map(({ fibre, remark }) => [fibre, remark])).toEqual(
      Array(4).fill([4, 'patched at the wrong cabinet?']),
    );
    expect(readings.filter(({ fibre }) => fibre === 3).map(({ loss }) => loss)).toEqual([
      2_660_000, 2_630_000, 1_440_000, 1_410_000, 2_600_000, 2_570_000, 1_400_000, 1_380_000,
    ]);
    expect(readings.map(({ order }) => order)).toEqual(readings.map((_, index) => index));
    expect(work).toMatchObject([{ done: 'cleaned', fibres: [3], on: { from: march14(10, 20) } }]);
    expect(concessions).toMatchObject([
      {
        fibres: [3],
        wavelength: 850_000,
        accepted: 2_610_000,
        by: 'M. Ashdown',
        on: { text: '2026-03-20' },
      },
    ]);
  });

  test('holds what the plan says of itself, and what holds where it says nothing', () => {
    expect(planSettings(plan.scope)).toMatchObject({
      title: 'Kestrel Quay ferry terminal: backbone',
      uncertainty: [{ loss: 150_000 }],
      decision: { rule: 'flagged', accepting: 'marginal-pass' },
      drift: { loss: 100_000, extended: false, closing: false, widening: false },
    });
  });
});

test('a cable of 144 fibres, pigtails placed by a pattern, fibres renumbered', () => {
  const plan = planOf(`cable C-300 {
  fibre       G.652.D
  count       144 tubes 12
  length      2.31 km
}

pattern sc-pigtail {
  connector   SC-APC
  segment     2 m G.657.A1
  splice      fusion
}

link KQ-300-3 {
  from        CORE/P3:01..24
  to          PIER/P3:01..24
  fibres      49..72
  as          sc-pigtail
  segment     C-300 fibres 49..71 step 2, 50..72 step 2
  as          sc-pigtail turned
}
`);
  expect(plan.findings()).toEqual([]);
  const link = plan.link('KQ-300-3');
  expect(
    link.path.map((part) =>
      part.kind === 'segment' ? part.fibreName : 'name' in part && part.name,
    ),
  ).toEqual(['SC-APC', 'G.657.A1', 'fusion', 'G.652.D', 'fusion', 'G.657.A1', 'SC-APC']);
  expect(link.fibres).toEqual(Array.from({ length: 24 }, (_, n) => n + 49));
  const cable = link.path[3];
  expect(cable?.kind === 'segment' && cable.cableFibres?.slice(10, 14)).toEqual([69, 71, 50, 52]);
  expect(link.mode).toBe('single-mode');
});

const backboneLinks = `link KQ-MDF-OPS {
  from        MDF:01..12
  to          OPS:01..12
  connector   LC
  segment     40 m OM4
  connector   LC
}

link KQ-MDF-G1 {
  from        MDF:13..24
  to          G1:01..12
  connector   LC
  segment     60 m OM4
  connector   LC
}

transceiver SR-T1 {
  application 10GBASE-SR
  wavelength  850 nm
  output      min -7.3 dBm max -1.0 dBm
  input       min -9.9 dBm max 0.5 dBm
}

channel GATE-1-SCAN "Ticket scanners, gate 1" {
  from        OPS/SW-2:07
  to          G1/SW-1:49
  cord        3 m OM4 crossed
  link        KQ-MDF-OPS turned fibres 3..4
  cord        5 m OM4 straight
  link        KQ-MDF-G1 fibres 7..8
  cord        2 m OM4 straight
  carries     10GBASE-SR with SR-T1
}
`;

test('a cross-connect: cords, and links crossed either way', () => {
  const plan = planOf('plan "P" {\n  measure     850 nm\n}\n', backboneLinks);
  expect(plan.findings()).toEqual([]);
  const channel = plan.link('GATE-1-SCAN');
  expect(channel.kind).toBe('channel');
  expect(channel.fibres).toEqual([1, 2]);
  expect(channel.path).toMatchObject([
    { kind: 'cord', length: 3_000_000, map: 'crossed' },
    { kind: 'link', name: 'KQ-MDF-OPS', turned: true, fibres: [3, 4] },
    { kind: 'cord', map: 'straight' },
    { kind: 'link', name: 'KQ-MDF-G1', turned: false, fibres: [7, 8] },
    { kind: 'cord', length: 2_000_000 },
  ]);
  const [, first] = channel.path;
  expect(first?.kind === 'link' && first.link).toBe(plan.link('KQ-MDF-OPS'));
  expect(channel.mode).toBe('multimode');
  expect(channel.terms.carries[0]?.transceivers).toEqual(['SR-T1']);
  // Readings of a channel are expected only where `measure` stands in it.
  expect(channel.terms.measure).toEqual([]);
  expect(plan.link('KQ-MDF-G1').terms.measure).toEqual([850_000]);
});

test('cassettes: a part with its figure, like another but for its map', () => {
  const plan = planOf(`component CASSETTE-A {
  joins       MPO-12 to LC
  map         straight
  loss        typ 0.35 dB max 0.75 dB
}

component CASSETTE-T {
  like        CASSETTE-A
  map         11, 12, 9, 10, 7, 8, 5, 6, 3, 4, 1, 2
}

link TRUNK-7 {
  from        OPS/R4/1:01..12
  to          ROW-C/2:01..12
  component   CASSETTE-A
  segment     85 m OM4 map reversed
  component   CASSETTE-T turned
}
`);
  expect(plan.findings()).toEqual([]);
  const [first, trunk, last] = plan.link('TRUNK-7').path;
  expect(first).toMatchObject({
    kind: 'component',
    turned: false,
    type: { joins: ['MPO-12', 'LC'] },
  });
  expect(last).toMatchObject({
    kind: 'component',
    name: 'CASSETTE-T',
    turned: true,
    type: { joins: ['MPO-12', 'LC'], loss: [{ typ: 350_000, max: 750_000 }] },
  });
  expect(trunk?.kind === 'segment' && trunk.map).toEqual([12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1]);
});

const leafSpine = `pattern leaf-spine {
  fibres      1..12
  connector   MPO-12
  segment     <length> OM4 map reversed
  connector   MPO-12
}

links "Leaf to spine" as leaf-spine {
  carries     100GBASE-SR4 fibres 1..4, 9..12
  columns link,   from,           to,             length in m
  L01-S1          LEAF-01:49      SPINE-1:01       23
  L01-S2          LEAF-01:50      SPINE-2:01       24
}
`;

test('leaf and spine: a row each, the hole filled by its column', () => {
  const plan = planOf('plan "P" {\n  margin      1 dB\n}\n', leafSpine);
  expect(plan.findings()).toEqual([]);
  const [first, second] = [plan.link('L01-S1'), plan.link('L01-S2')];
  expect(first.path.map((part) => part.kind === 'segment' && part.length)).toEqual([
    false,
    23_000_000,
    false,
  ]);
  expect(second.path[1]).toMatchObject({ length: 24_000_000, fibreName: 'OM4' });
  expect(second.from).toEqual(['LEAF-01:50']);
  expect(second.fibres).toHaveLength(12);
  expect(second.terms.carries).toMatchObject([
    { name: '100GBASE-SR4', fibres: [1, 2, 3, 4, 9, 10, 11, 12] },
  ]);
  expect(second.terms.margin).toBe(1_000_000);
  expect(second.pattern).toBe('leaf-spine');
  expect(plan.textAt(second.place)).toMatch(/^L01-S2 .* 24$/u);
  expect(plan.textAt(second.row!)).toMatch(/^L01-S2/u);
  expect(plan.textAt(second.namePlace)).toBe('L01-S2');
});

const drift = `setup MM-2 {
  like        MM-1
  cord        TC-4 receive LC OM4 reference-grade verified 0.06 dB
  taken       2026-03-21 09:40 850 nm -20.02 dBm
  checked     2026-03-21 11:10 850 nm -20.19 dBm
  # drifted: a new reference, the same cords
  taken       2026-03-21 11:20 850 nm -20.20 dBm
  cord        TC-5 receive LC OM4 reference-grade since 2026-03-21 11:35
  verified    2026-03-21 12:15 TC-5 0.07 dB
}

readings KQ-OPS-B3 {
  setup       MM-2
  tested      2026-03-21 11:30 to 12:10 by "R. Vale"
  values      power in uW
  columns fibre, seen,           850 nm A>B, time,           remark
  2              B3/R1/A:02        7.11      11:32           -
  3              B3/R1/A:03        7.24      11:41           "cleaned twice"
}

work KQ-OPS-B3 {
  done        re-spliced
  fibres      3
  at          "closure under ramp 3"
  on          2026-03-20 14:10
}

withdraw KQ-OPS-B3 {
  fibres      3
  tested      2026-03-14 09:05
  because     "far plug was in the neighbouring panel"
  by          "R. Vale" on 2026-03-14
}
`;

describe('drift, a new reference, a retest, powers instead of losses', () => {
  const plan = planOf(backbone, drift);

  test('like copies equipment, never evidence', () => {
    expect(plan.findings()).toEqual([]);
    const setup = plan.setup('MM-2');
    expect(setup).toMatchObject({
      reference: 'one-cord',
      source: { text: 'S-3' },
      meter: { text: 'M-5' },
    });
    expect(setup.cords.map(({ name, role, since }) => [name, role, since?.text])).toEqual([
      ['TC-4', 'receive', undefined],
      ['TC-5', 'receive', '2026-03-21 11:35'],
      ['TC-1', 'launch', undefined],
    ]);
    expect(setup.events.map(({ kind, at }) => `${kind} ${at.text.slice(11)}`)).toEqual([
      'taken 09:40',
      'checked 11:10',
      'taken 11:20',
      'verified 12:15',
    ]);
  });

  test('a row has its own time, and a power is in dBm whatever the unit', () => {
    const { readings, work, withdrawals } = evidenceOf('KQ-OPS-B3', plan.scope);
    const powers = readings.filter(({ quantity }) => quantity === 'power');
    expect(powers).toMatchObject([
      {
        fibre: 2,
        seen: 'B3/R1/A:02',
        remark: undefined,
        typed: { digits: '7.11', unit: 'uW' },
        at: { text: '2026-03-21 11:32' },
      },
      { fibre: 3, remark: 'cleaned twice', at: { text: '2026-03-21 11:41' } },
    ]);
    // 10 · log10(7.11 µW / 1 mW) = -21.481304 dBm, by the definition of dBm (IEC 60027-3).
    expect(powers[0]?.power).toBe(-21_481_304);
    expect(powers[0]?.loss).toBeUndefined();
    expect(work.map(({ done, at }) => [done, at])).toContainEqual([
      're-spliced',
      'closure under ramp 3',
    ]);
    expect(withdrawals).toMatchObject([
      { fibres: [3], tested: { text: '2026-03-14 09:05' }, by: 'R. Vale' },
    ]);
  });
});

const owner = `plan "Kestrel Quay: owner's tighter figures" {
  limits      TIA-568.3-E, KQ-OWNER
  compare     KQ-OLD
}

limits KQ-OWNER {
  like        TIA-568.3-E
  edition     "clause 7.4, 2026" contract
  connector   any 0.5 dB
  splice      any 0.15 dB
}

limits KQ-OLD {
  like        KQ-OWNER
}

fibre OM4 {
  like        OM4
  attenuation 850 nm typ 2.3 dB/km max 2.7 dB/km
  basis       "contract clause 7.2" read
}

link CORD-001 {
  fibres      1..2
  plug        LC
  segment     5 m OM4
  plug        LC
}

setup CORD-TEST {
  reference   three-cord
}

readings {
  setup       CORD-TEST
  tested      2026-03-15 09:20 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B, 850 nm B>A
  CORD-001          1       0.21        0.24
}
`;

describe("owner's figures, an overridden fibre, a cord from stock", () => {
  const plan = planOf(owner);

  test('limits like others: what is written here stands first, the rest is taken over', () => {
    expect(plan.findings()).toEqual([]);
    const { terms } = plan.link('CORD-001');
    expect(terms.limits.map(({ name, contract }) => [name, contract])).toEqual([
      ['TIA-568.3-E', false],
      ['KQ-OWNER', true],
    ]);
    const [library, own] = terms.limits;
    expect(
      own?.connector.find(({ connector, grade }) => connector === 'any' && grade === 'installed'),
    ).toMatchObject({
      loss: 500_000,
    });
    expect(own?.splice.find(({ splice }) => splice === 'any')).toMatchObject({ loss: 150_000 });
    expect(own?.fibre.length).toBe(library?.fibre.length);
    expect(own?.edition).toBe('clause 7.4, 2026');
    expect(own?.policy).toBe(library?.policy);
    expect(terms.compare.map(({ name, connector }) => [name, connector[0]?.loss])).toEqual([
      ['KQ-OLD', 500_000],
    ]);
  });

  test('a fibre declared again is like the one it shadows', () => {
    const segment = plan.link('CORD-001').path[1];
    const fibre = segment?.kind === 'segment' ? segment.fibre : undefined;
    expect(fibre).toMatchObject({ name: 'OM4', origin: 'plan', mode: 'multimode' });
    const at850 = fibre?.attenuation.filter(({ wavelength }) => wavelength === 850_000);
    expect(at850).toMatchObject([{ typ: 2_300_000, max: 2_700_000 }]);
    expect(fibre?.attenuation.some(({ wavelength }) => wavelength === 1_300_000)).toBe(true);
    expect(fibre?.basis).toEqual([{ text: 'contract clause 7.2', trust: 'read' }]);
  });

  test('readings of many links name the link in the row', () => {
    const { readings } = evidenceOf('CORD-001', plan.scope);
    expect(readings.map(({ fibre, direction, loss }) => [fibre, direction, loss])).toEqual([
      [1, 'A>B', 210_000],
      [1, 'B>A', 240_000],
    ]);
  });
});
