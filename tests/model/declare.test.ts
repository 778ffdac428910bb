/** What an edit leaves alone stays the same object, and its places move with the text. */
import { describe, expect, test } from 'vitest';
import { bindBlock } from '../../grammar/src/binding.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import { buildLink, evidenceOf, referencesIn } from '../../server/src/model/api.ts';
import { declareText, planOf, planOfBlocks } from './plan.ts';

const link = `link KQ-1 "One" {
  from        A:01..02
  connector   LC
  segment     60 m OM4
  connector   LC
}
`;

describe('a declaration', () => {
  const { declared } = declareText(link);
  const again = (text: string) => declareText(text, { previous: declared }).declared;

  test('that is equal is the same object, its spans where it stands now', () => {
    const built = buildLink(declared.declarations[0]!, planOfBlocks([declared]).scope).model;
    const moved = again(`# a remark above\n${link.replaceAll('  ', '    ')}`);
    expect(moved.declarations[0]).toBe(declared.declarations[0]);
    const plan = planOfBlocks([moved]);
    // Places made before the edit show the text after it.
    expect(plan.textAt(built.namePlace)).toBe('KQ-1');
    expect(plan.textAt(built.path[1]!.place)).toMatch(/^segment +60 m OM4$/u);
    expect(plan.link('KQ-1')).toBe(built);
    again(link);
    expect(planOfBlocks([declared]).textAt(built.namePlace)).toBe('KQ-1');
  });

  test.each([
    ['a length', link.replace('60 m', '61 m')],
    ['the digits as typed', link.replace('60 m', '60.0 m')],
    ['a title', link.replace('"One"', '"Two"')],
    ['one entry more', link.replace('  from', '  note        "x"\n  from')],
    ['an open brace', link.replace('}\n', '')],
  ])('that differs in %s is another', (_what, text) => {
    expect(again(text).declarations[0]).not.toBe(declared.declarations[0]);
  });
});

const rows = (lengths: readonly number[]) => `links "Row" as leaf {
  carries     10GBASE-SR
  columns link,   length in m
${lengths.map((length, index) => `  L-${index}          ${length}`).join('\n')}
}
`;

test('of a table only the changed row is another declaration', () => {
  const before = declareText(rows([10, 20, 30])).declared;
  const after = declareText(rows([10, 2222, 30]), { previous: before }).declared;
  const same = after.declarations.map((row, index) => row === before.declarations[index]);
  expect(same).toEqual([true, false, true]);
  expect(after.declarations[1]?.table).toBe(before.declarations[0]?.table);
  expect(planOfBlocks([after]).textAt(after.declarations[2]!.place)).toMatch(/^L-2 +30$/u);
});

test('a changed entry above the rows changes every row', () => {
  const before = declareText(rows([10, 20])).declared;
  const other = rows([10, 20]).replace('10GBASE-SR', '10GBASE-LR');
  const after = declareText(other, { previous: before }).declared;
  expect(after.declarations.some((row) => before.declarations.includes(row))).toBe(false);
});

test('the rows of a pattern share its text', () => {
  const plan = planOf(
    'pattern leaf {\n  fibres      1..2\n  connector   LC\n  segment     <length> OM4\n  connector   LC\n}\n',
    rows([10, 20]),
  );
  const [a, b] = [plan.link('L-0'), plan.link('L-1')];
  expect(a.path[0]?.place.span).toBe(b.path[0]?.place.span);
});

test('a changed plan field is another, the fields beside it are the same', () => {
  const text =
    'plan "P" {\n  client      "A"\n  measure     850 nm\n  measure     1310 nm for single-mode\n}\n';
  const before = declareText(text).declared.plan!;
  const { declared } = declareText(text.replace('"A"', '"Another"'), {
    previous: {
      block: 0,
      origin: 'plan',
      declarations: [],
      includes: [],
      evidence: [],
      plan: before,
    },
  });
  expect(declared.plan?.fields.get('measure')).toBe(before.fields.get('measure'));
  expect(declared.plan?.fields.get('client')).not.toBe(before.fields.get('client'));
});

describe('evidence', () => {
  const readings = (cell: string) => `readings {
  setup       S
  tested      2026-03-14 09:05
  values      loss in dB
  columns link,   fibre,  850 nm A>B
  KQ-1              1       1.12
  KQ-2              1       ${cell}
  KQ-1              2       1.14
}
`;

  test('is grouped by object, and of an object whose rows are equal it is the same', () => {
    const before = declareText(readings('1.13')).declared;
    expect(before.evidence.map(({ object }) => object)).toEqual(['KQ-1', 'KQ-2']);
    const after = declareText(`# remark\n${readings('0.5')}`, { previous: before }).declared;
    expect(after.evidence[0]).toBe(before.evidence[0]);
    expect(after.evidence[1]).not.toBe(before.evidence[1]);
    const plan = planOfBlocks([after]);
    const { readings: cells } = evidenceOf('KQ-1', plan.scope);
    expect(cells.map(({ place }) => plan.textAt(place))).toEqual(['1.12', '1.14']);
  });

  test('changes for all objects with what the block says of all', () => {
    const before = declareText(readings('1.13')).declared;
    const after = declareText(readings('1.13').replace('09:05', '09:06'), {
      previous: before,
    }).declared;
    expect(after.evidence.some((part) => before.evidence.includes(part))).toBe(false);
  });

  test('of two equal blocks in one text stays two', () => {
    const work = 'work KQ-1 {\n  done        cleaned\n  on          2026-03-14\n}\n';
    const first = declareText(work).declared;
    const second = declareText(work).declared;
    const plan = planOfBlocks([first, second]);
    expect(evidenceOf('KQ-1', plan.scope).work).toHaveLength(2);
  });
});

test('includes are named with their place', () => {
  const { declared } = declareText('include "links/berth-3.lwl"\ninclude "b.lwl"\n');
  expect(declared.includes.map(({ path }) => path)).toEqual(['links/berth-3.lwl', 'b.lwl']);
});

describe('uses of names', () => {
  const uses = (text: string) =>
    referencesIn(bindBlock(parseBlock(text), text), 1).map(
      ({ kind, name, place }) => `${kind} ${name} ${text.slice(place.span.start, place.span.end)}`,
    );

  test('are told by kind, without the declared name', () => {
    expect(uses(link)).toEqual(['connector LC LC', 'fibre OM4 OM4', 'connector LC LC']);
  });

  test('hold those of cells, of lists, of like and of patterns', () => {
    expect(
      uses(
        'readings {\n  setup       S\n  columns link,   fibre,  850 nm A>B\n  KQ-1              1       1.1\n}\n',
      ),
    ).toEqual(['setup S S', 'object KQ-1 KQ-1']);
    expect(uses('fibre X {\n  like        OM4\n  meets       OM3, OM2\n}\n')).toEqual([
      'fibre OM4 OM4',
      'fibre OM3 OM3',
      'fibre OM2 OM2',
    ]);
    expect(
      uses('links as leaf {\n  columns link,   carries\n  L-1             10GBASE-SR\n}\n'),
    ).toEqual(['pattern leaf leaf', 'application 10GBASE-SR 10GBASE-SR']);
  });

  test('a choice and a place in words are no names', () => {
    expect(uses('limits X {\n  connector   any 0.5 dB\n}\n')).toEqual([]);
    expect(uses('pattern p {\n  splice      fusion at "closure 3"\n}\n')).toEqual([
      'splice fusion fusion',
    ]);
  });
});

test('a cell may carry its own unit, and its place follows when its row has only moved', () => {
  const readings = (blanks: string) => `readings KQ-1 {
  setup       S
  tested      2026-03-14 09:05
  values      power in uW
  columns fibre,  850 nm A>B, time
  1               7.11        09:10
${blanks}  2               -21.5 dBm   09:12
}
`;
  const before = declareText(readings('')).declared;
  const cells = evidenceOf('KQ-1', planOfBlocks([before]).scope).readings;
  expect(cells.map(({ power, typed }) => [power, typed])).toEqual([
    // 10 · log10(7.11 µW / 1 mW), by the definition of dBm (IEC 60027-3).
    [-21_481_304, { digits: '7.11', unit: 'uW' }],
    [-21_500_000, { digits: '-21.5', unit: 'dBm' }],
  ]);
  const after = declareText(readings('\n   '), { previous: before }).declared;
  expect(after.evidence[0]).toBe(before.evidence[0]);
  const { textAt } = planOfBlocks([after]);
  expect(textAt(cells[1]!.place)).toBe('-21.5 dBm');
  expect(textAt(cells[1]!.at.place)).toBe('09:12');
  expect(textAt(cells[1]!.row)).toMatch(/^2 .* 09:12$/u);
});
