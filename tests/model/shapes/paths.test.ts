/** Cables, crossings, parts and patterns in the notation, from text to model: what lies on a path. */
import { expect, test } from 'vitest';
import { planOf } from '../plan.ts';

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
