/** Traces, inspections, lengths and seen ports as their blocks say them, by object. */
import { describe, expect, test } from 'vitest';
import { printMicro, toMetres } from '../../grammar/src/quantity/index.ts';
import { evidenceOf } from '../../server/src/model/api.ts';
import { declareText, planOf, planOfBlocks } from './plan.ts';

const setup = 'setup OT-1 {\n  otdr        "T-2"\n}\nsetup OT-2 {\n  otdr        "T-3"\n}\n';

const events = (rows: string, columns = '1550 nm A>B, 1550 nm B>A') => `events KQ-1 {
  setup       OT-1
  setup       OT-2 B>A
  tested      2026-05-20 08:40 to 09:20 by "T. Holm"
  trace       "traces/kq-1.txt"
  values      loss in dB
  values      reflectance in dB
  columns fibre, at in km, kind, ${columns}, time, remark
${rows}
}
`;

describe('events', () => {
  const plan = planOf(
    setup,
    events(
      `  1  0      connector  0.31   0.28  08:45  "clean"
  1  4.212  splice     -0.04  0.14  -
  1  8.1    end        -      -     -
  2  6.4    bend       0.21   -     -`,
    ),
  );
  const { events: cells, lengths } = evidenceOf('KQ-1', plan.scope);

  test('are one cell a value, with distance, kind, direction and its set-up', () => {
    expect(cells.map(({ fibre, kind, value }) => [fibre, kind, printMicro(value)])).toEqual([
      [1, 'connector', '0.31'],
      [1, 'connector', '0.28'],
      [1, 'splice', '-0.04'],
      [1, 'splice', '0.14'],
      [2, 'bend', '0.21'],
    ]);
    expect(cells.map(({ setup: name, direction }) => `${name} ${direction}`).slice(0, 2)).toEqual([
      'OT-1 A>B',
      'OT-2 B>A',
    ]);
    expect(toMetres(cells[2]!.distance)).toBe(4212);
    expect(cells[2]?.typed).toEqual({ digits: '-0.04', unit: 'dB' });
  });

  test('have the time of their row, who measured, and where the trace is kept', () => {
    expect(cells[0]).toMatchObject({ by: 'T. Holm', remark: 'clean', trace: ['traces/kq-1.txt'] });
    expect(cells[0]?.at.text).toBe('2026-05-20 08:45');
    expect(cells[2]?.at.text).toBe('2026-05-20 08:40 to 09:20');
    expect(plan.textAt(cells[2]!.place)).toBe('-0.04');
  });

  test('that are the end of a trace are a length', () => {
    expect(lengths.map(({ fibre, from, length }) => [fibre, from, toMetres(length)])).toEqual([
      [1, 'trace', 8100],
    ]);
  });

  test('may be reflectances', () => {
    const text = events('  1  0  connector  -61.5  -  -', '1550 nm A>B reflectance');
    const [cell] = evidenceOf('KQ-1', planOf(setup, text).scope).events;
    expect(cell).toMatchObject({ quantity: 'reflectance', value: -61_500_000 });
  });
});

describe('of many links', () => {
  const rows = (cell: string) => `events {
  setup       OT-1
  tested      2026-05-20
  values      loss in dB
  columns link,  fibre,  at in m,  kind,  1550 nm A>B
  KQ-1              1       12       splice          ${cell}
  KQ-2              1       12       splice          0.03
  KQ-1              2       12       splice          0.04
}
`;

  test('each has its own rows, and keeps them as the same object while they are equal', () => {
    const before = declareText(rows('0.02')).declared;
    expect(before.evidence.map(({ object }) => object)).toEqual(['KQ-1', 'KQ-2']);
    const after = declareText(`# moved\n${rows('0.05')}`, { previous: before }).declared;
    expect(after.evidence[0]).not.toBe(before.evidence[0]);
    expect(after.evidence[1]).toBe(before.evidence[1]);
    const plan = planOfBlocks([after]);
    const { events: cells } = evidenceOf('KQ-2', plan.scope);
    expect(cells.map(({ place }) => plan.textAt(place))).toEqual(['0.03']);
  });

  test('a block of another kind with equal columns is not taken for it', () => {
    const inspection = (word: string) =>
      `${word} KQ-1 {\n  tested      2026-05-20\n  columns fibre, remark\n  1  "x"\n}\n`;
    const before = declareText(inspection('inspection')).declared;
    const after = declareText(inspection('readings'), { previous: before }).declared;
    expect(after.evidence[0]).not.toBe(before.evidence[0]);
  });
});

test('inspections are one cell an end face, with the criterion of their block', () => {
  const plan = planOf(`inspection KQ-1 {
  tested      2026-05-20 08:00 by "R. Vale"
  criterion   "contract, clause 9"
  columns fibre, A,  B,  remark
  1  pass     fail
  2  cleaned  -     "no access"
}
`);
  const { inspections } = evidenceOf('KQ-1', plan.scope);
  expect(inspections.map(({ fibre, side, seen }) => `${fibre}${side} ${seen}`)).toEqual([
    '1A pass',
    '1B fail',
    '2A cleaned',
  ]);
  expect(inspections[2]).toMatchObject({ criterion: 'contract, clause 9', remark: 'no access' });
});

test('lengths and seen ports are read beside readings, and without any', () => {
  const plan = planOf(`readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, seen, length in m, 850 nm B>A
  1  A:01  142.5  1.12
  2  A:02  1.4 km  -
  3  -     -      1.10
}
`);
  const { seen, lengths, readings } = evidenceOf('KQ-1', plan.scope);
  expect(seen.map(({ fibre, port, side }) => `${fibre} ${port} ${side}`)).toEqual([
    '1 A:01 A',
    '2 A:02 A',
  ]);
  expect(lengths.map(({ fibre, length }) => [fibre, toMetres(length)])).toEqual([
    [1, 142.5],
    [2, 1400],
  ]);
  expect(readings.map(({ fibre, seen: port }) => `${fibre} ${port}`)).toEqual([
    '1 A:01',
    '3 undefined',
  ]);
});

describe('ends of a tree', () => {
  const tree = `link HALL-1 {
  from        CORE/1:01
  connector   SC-APC
  segment     100 m OS2
  splice      fusion
  split SP-1 PLC-1x4 {
    out         1..2 to HALL/K-01..02 as drop
    out         3..4 spare
  }
}
pattern drop {
  splice      fusion
  segment     50 m OS2
  connector   SC-APC
}
splitter PLC-1x4 {
  ports       1:4
}
`;
  const readings = (end: string) => `readings HALL-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns end, 1310 nm A>B
  ${end}       7.12
}
`;

  test('are named by their ports and kept under their numbers', () => {
    const { readings: cells } = evidenceOf('HALL-1', planOf(tree, readings('HALL/K-02')).scope);
    expect(cells).toMatchObject([{ fibre: 2, end: 'HALL/K-02' }]);
  });

  test('one that the tree does not have is a finding, and no reading', () => {
    const plan = planOf(tree, readings('HALL/K-03'));
    expect(evidenceOf('HALL-1', plan.scope).readings).toEqual([]);
    const [found] = plan.findings().filter(({ name }) => name === 'unknown-end');
    expect(plan.textAt(found!.place)).toBe('HALL/K-03');
    expect(found?.fix?.edits.map(({ text }) => text)).toEqual(['HALL/K-01']);
  });

  test.each([
    ['an argument that is none', 'out         1..2 to HALL/K-01..02 ax drop'],
    ['a name that is spoilt', 'out         1..2 to HALL/K-01,02 as drop'],
    ['too few names', 'out         1..2 to HALL/K-01 as drop'],
  ])('one is not said to be unknown beside an output with %s', (_, out) => {
    const more = '    out         3..4 to HALL/K-03..04 as drop\n';
    const slip = tree
      .replace('    out         3..4 spare\n', more)
      .replace(/out {9}1\.\.2.*/u, out);
    const plan = planOf(slip, readings('HALL/K-02'));
    const found = [...plan.findings(), ...plan.notation].map(({ name }) => name);
    expect(found).not.toContain('unknown-end');
    expect(found.filter((name) => name !== 'unknown-reference')).toHaveLength(1);
    // An end that an output names is one, whatever the others hold.
    const known = planOf(slip, readings('HALL/K-04'));
    expect(evidenceOf('HALL-1', known.scope).readings).toMatchObject([{ end: 'HALL/K-04' }]);
  });
});
