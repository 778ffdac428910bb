/** Generated texts: whole plans, and plans with anything in them. */
import fc from 'fast-check';

const lines = [
  'link A {',
  'link KQ-2 "Room to berth" {',
  'cable C-101 {',
  '  from        OPS/R2/A:01..12',
  '  length      142 m',
  '  segment     C-1 fibres 1..23 step 2, 30..40',
  '  split SP-1 PLC-1x4 {',
  '    out 1 {',
  '    }',
  '  }',
  '}',
  'readings A {',
  '  tested      2026-03-14 09:05 by "R. Vale"',
  '  columns fibre, 850 nm A>B, length in m, remark',
  '  1                0.31        -      "poor"',
  '  2                dark        12',
  'include "a.lwl"',
  '# a comment',
  '  # an inner comment',
  '',
  '{',
  '  }',
  'out 1 {',
  'note',
  '  map         1, 2,',
  '              3, 4',
];
const odd = [
  '  loss 0,15 dB',
  '  1   1,12  0,8',
  '  note “curly”',
  "  note 'single'",
  '  note "open',
  'link B "open {',
  'link C { from x }',
  '} link D {',
  '<<<<<<< ours',
  '=======',
  '>>>>>>> theirs',
  '\u0000',
  '\ufefflink E {',
  '  a=b; [c] A#01',
  '  - 3 dB',
  '  −0.5 dB, , x,',
  '  map 1,',
  'columns a, b',
  '\t\u00a0x\ty',
  '  name 😀 é e\u0301 µm 5 µm',
  '{{{{',
  '}}',
  '"',
  '  12..3 2026-02-30 25:99',
  '  <hole> < hole> 5%',
  '\ud800',
];

const lineEnd = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r');

/** Texts of up to `count` lines, most of the notation, some not, with any line ends. */
export function brokenText(count: number): fc.Arbitrary<string> {
  const line = fc.oneof(
    { weight: 8, arbitrary: fc.constantFrom(...lines) },
    { weight: 4, arbitrary: fc.constantFrom(...odd) },
    { weight: 1, arbitrary: fc.string({ maxLength: 12, unit: 'binary' }) },
  );
  return fc
    .tuple(fc.array(fc.tuple(line, lineEnd), { maxLength: count }), fc.oneof(line, fc.constant('')))
    .map(([whole, last]) => whole.map((pair) => pair.join('')).join('') + last);
}

const soundEntries = [
  'from        OPS/R2/A:01..12',
  'length   .5 km   # as built',
  'note "two  blanks, a # and a { stay"',
  'loss −0.04 dB',
  'segment     C-1 fibres 1..23  step  2,30..40 , 50',
  'core 50 µm',
  '# a remark of its own',
  '',
  '',
  'map 1, 2,\n      3, # after a comma\n      4',
];
const soundRows = ['1  0.31  -  "poor"', 'dark dark 12', '2  1234.5 .8   # row', '# between', ''];
const soundTops = ['include "a.lwl"', '# top', '', '  # indented'];

const block: fc.Arbitrary<string> = fc
  .record({
    word: fc.constantFrom('link A', 'cable  C-101', 'readings   A', 'split'),
    entries: fc.array(fc.constantFrom(...soundEntries), { maxLength: 6 }),
    inner: fc.boolean(),
    rows: fc.option(fc.array(fc.constantFrom(...soundRows), { maxLength: 5 })),
    indent: fc.constantFrom('  ', '\t', ' '),
  })
  .map(({ word, entries, inner, rows, indent }) =>
    [
      `${word === 'split' ? 'link' : word} {`,
      ...entries.map((entry) => indent + entry),
      ...(inner ? [`${indent}out 1 {`, `${indent}${indent}note`, `${indent}}`] : []),
      ...(rows ? [`${indent}columns fibre, 850 nm A>B,length in m , remark`] : []),
      ...(rows ?? []).map((row) => indent + row),
      '}',
    ].join('\n'),
  );

/** Texts without a mistake, but laid out anyhow. */
export const soundText: fc.Arbitrary<string> = fc
  .array(fc.oneof(block, fc.constantFrom(...soundTops)), { maxLength: 5 })
  .map((parts) => parts.join('\n'));

/** Five declarations that between them hold every shape of the notation. */
export const declarations: readonly string[] = [
  'link KQ-OPS-B3 "Operations room to berth 3" {\n  from        OPS/R2/A:01..12\n  to          B3/R1/A:01..12\n  connector   LC\n  segment     C-101 fibres 1..12\n  splice      fusion at "closure under ramp 3"\n  carries     10GBASE-SR\n}\n',
  'readings KQ-OPS-B3 {\n  setup       MM-1\n  tested      2026-03-14 09:05 to 09:40 by "R. Vale"\n  values      loss in dB\n  columns fibre, 850 nm A>B, 850 nm B>A, remark\n  1                1.12        1.15        -\n  2              dark        -           "patched?"\n}\n',
  'cable OSP-1 {\n  fibre       G.652.D\n  count       96 tubes 8\n  repair REP-1 {\n    fibres      37..38\n    at          7.4 km\n    on          2026-05-02\n  }\n}\n',
  'component CASSETTE-T {\n  like        CASSETTE-A  # turned\n  map         11, 12, 9, 10, 7, 8,\n              5, 6, 3, 4, 1, 2\n}\n',
  'link HALL-1 {\n  from        CORE/1:01\n  split SP-1 PLC-1x4 {\n    out 1 {\n      splice      fusion\n    }\n    out         2..4 spare\n  }\n}\n',
];
