/** What binding says about texts that do not fit the vocabulary, and how it mends them. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { bindBlock, bindingFindings } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import type { NotationFinding } from '../../grammar/src/tree.ts';
import { findingsOf, fixed, marked, unmarked } from './binding-marks.ts';

const cases: Readonly<Record<string, string>> = {
  'words that are misspelt or stand elsewhere': `
cable C-101 {
  fibr        OM4
  ^^^^ unknown-word: fibr is not a word of cable. fibre was probably meant.
  count       24
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  ^^^^^ word-not-here: taken stands in setup, not in cable.
}

limitz X {
^^^^^^ unknown-word: limitz is not a word of a file. limits was probably meant.
  connector   any 0.5
                  ^^^ missing-unit: 0.5 has no unit. Write 0.5 dB, if that is meant.
}
`,
  'words of the trade that the notation has another for': `
link L-1 {
  cable       142 m OM4
  ^^^^^ word-not-here: cable stands in the file itself, not in link. segment was probably meant.
  pigtail     2 m OM4
  ^^^^^^^ unknown-word: pigtail is not a word of link. segment was probably meant.
  fibre       12
  ^^^^^ word-not-here: fibre stands in the file itself, cable, limits or application, not in link. fibres was probably meant.
  module      FAN-OUT
  ^^^^^^ unknown-word: module is not a word of link. component was probably meant.
  application 10GBASE-SR
  ^^^^^^^^^^^ word-not-here: application stands in the file itself or transceiver, not in link. carries was probably meant.
}

cable C-1 {
  fibre       OM4
  fibres      24
  ^^^^^^ word-not-here: fibres stands in colours, repair, link, links, pattern, work, withdraw or concession, not in cable. count was probably meant.
  count       24
}

inspection L-1 {
  tested      2026-03-14 08:20
  criterion   "contract, clause 9"
  columns fibre, near,           B
                 ^^^^ unknown-heading: near heads no column here: link, fibre, end, A, B, time, by or remark. A was probably meant.
  1              pass           pass
}

readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B
  1                OL
                   ^^ unknown-choice: OL is none of a number, - and dark. dark was probably meant.
}
`,
  'quantities without unit, with another one, or of another dimension': `
link L-1 {
  segment     38 OM4
              ^^ missing-unit: 38 has no unit. Write 38 m, if that is meant.
  segment     38 mtr OM4
              ^^^^^^ unknown-unit: mtr is not a unit of length: m, km, cm, ft or kft. m was probably meant.
  segment     38M OM4
              ^^^ unknown-unit: M is not a unit of length: m, km, cm, ft or kft. m was probably meant.
  segment     38 dB OM4
              ^^^^^ wrong-dimension: 38 dB is a loss; what is taken here is a length, in m, km, cm, ft or kft.
  margin      0.1234567 dB
              ^^^^^^^^^^^^ too-fine: 0.1234567 dB has more decimals than are held: at most 6 in dB. Round it.
}
`,
  'figures that cannot be': `
plan "Kestrel Quay" {
  uncertainty -0.15 dB
              ^^^^^^^^ out-of-bounds: -0.15 dB cannot be: what stands here is zero or above. Correct the number.
  spares      200 %
              ^^^^^ out-of-bounds: 200 % cannot be: what stands here is between nothing and the whole. Correct the number.
  drift       0.1 dB expiry -4 h
                            ^^^^ out-of-bounds: -4 h cannot be: what stands here is zero or above. Correct the number.
}

setup MM-1 {
  cord        TC-2 receive LC OM4 verified -0.02 dB
}
`,
  'values of another kind': `
link L-1 Operations room {
         ^^^^^^^^^^^^^^^ unquoted-text: A text stands in quotes. Put quotes round it.
  note        the hatch sticks
              ^^^^^^^^^^^^^^^^ unquoted-text: A text stands in quotes. Put quotes round it.
  splice      fusion at closure under ramp 3
                        ^^^^^^^^^^^^^^^^^^^^ unquoted-text: A text stands in quotes. Put quotes round it.
  segment     <length> OM4
              ^^^^^^^^ hole-outside-pattern: <length> is a hole, and holes stand only in a pattern.
  reserve     splices 2 dB
                      ^^^^ wrong-kind: 2 dB is a quantity; what is taken here is a whole number.
  spare       1.5
              ^^^ not-whole: A whole number is taken here, from 0 upwards; 1.5 is not one.
}
`,
  'choices and keywords': `
plan "Kestrel Quay" {
  decision    flaged
              ^^^^^^ unknown-choice: flaged is none of flagged, simple, guarded-acceptance and guarded-rejection. flagged was probably meant.
  uncertainty 0.15 dB one-crod
                      ^^^^^^^^ unknown-argument: one-crod is no argument of uncertainty. one-cord was probably meant.
  require     los 3 dB
              ^^^ unknown-choice: los is none of loss, power, events, inspection, length and seen. loss was probably meant.
  directions  both within 0.2 dB
                   ^^^^^^ misplaced-argument: within stands only where average does, behind it.
  carries     10GBASE-SR 1..2
                         ^^^^ missing-keyword: 1..2 needs a keyword before it. Write fibres 1..2, if that is meant.
  carries     10GBASE-SR beside beside
                                ^^^^^^ repeated-argument: beside stands twice on this line.
  measure     850 nm for multimode, 1300 nm
                                    ^^^^^^^ no-list: One value is taken here, not a list: a comma means the next of the same kind.
  margin      1 dB 2 dB
                   ^^^^ too-many-arguments: 2 dB is more than margin takes: margin LOSS.
}
`,
  'what is missing on a line': `
connector LC {
  loss        0.35 dB
              ^^^^^^^ missing-keyword: 0.35 dB needs a keyword before it. Write max 0.35 dB, if that is meant.
  return-loss
  ^^^^^^^^^^^ missing-figure: return-loss needs min LOSS, typ LOSS, max LOSS or sigma LOSS.
}

setup MM-1 {
  launch      encircled-flux aperture
                             ^^^^^^^^ missing-argument: aperture lacks a number.
  taken       2026-03-14 850 nm
  ^^^^^ missing-argument: taken lacks a power in dBm.
}
`,
  'what stands twice, or nowhere': `
work L-1 {
^^^^ missing-word: work lacks on.
  done        cleaned
}

application NEW {
^^^^^^^^^^^ missing-word: application lacks count and wavelength.
}

connector LC {
  loss        wavelength 850 nm max 0.3 dB
  loss        max 0.3 dB
  loss        max 0.5 dB
  ^^^^ repeated-word: loss stands here already. Take one of the two out.
}

link L-1 {
  from        A:1
  from        A:2
  ^^^^ repeated-word: from stands here already. Take one of the two out.
}

links "Many" as tail {
^^^^^ missing-columns: links lacks its table: a line columns, and the rows below it.
}
`,
  'rows whose columns line is misspelt, or missing': `
links "Many" as tail {
  colums link, from
  ^^^^^^ rows-without-columns: colums is not columns, which names the columns of the rows below it. Write columns, a blank, and the headings.
  L-1  A:1
  L-2  A:2
}

readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  1    0.31
  ^ rows-without-columns: These rows of readings have no line above them that names their columns. Write columns and the headings there.
  2    - "not reached"
}
`,
  'rows below a heading that could not be read': `
readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B 850 nm B>A
                            ^^^^^^ wrong-kind: 850 nm is a quantity; what is taken here is loss, power or reflectance.
  1    0.31   0.30
  2    0.33   0.32
}
`,
  'a declaration whose brace is open is not asked for what it lacks': `
work L-1 {
         ^ block-left-open: This block is not closed. Write } on a line of its own where it ends.
  done        cleaned
`,
  'blocks where none stand, and none where one stands': `
link L-1 {
  from A:1 {
  ^^^^ block-not-here: from has no block here: it is one line.
  }
}

cable C-9
^^^^^ missing-block: cable opens a block: its line ends in {, and } closes it.
`,
  'headings and rows': `
readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B, length in m, seen,           remark
  1..2             1.12        142       X:1
  ^^^^ range-in-row: A row of evidence names one fibre; 1..2 is several.
  3                1.12
  ^^^^^^^^^^^^^^^^^^^^^ short-row: This row has 2 of 5 cells. Write - in each where nothing is there. (2 rows)
  4                1.13
  5                1.14        142       X:5            cleaned twice
                                                        ^^^^^^^^^^^^^ unquoted-remark: A remark stands in quotes. Put quotes round it.
  -                1.12        142       X:6
  ^ missing-cell: Every row names its fibre.
  7              drak          142       X:7
                 ^^^^ unknown-choice: drak is none of a number, - and dark. dark was probably meant.
  8                3 m         142       X:8
                   ^^^ wrong-dimension: 3 m is a length; what is taken here is a loss, in dB.
  9                1.12        142       X:9            "fine"  12
                                                        ^^^^^^^^^^ unquoted-remark: A remark stands in quotes. Put quotes round it.
}

readings L-2 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, lenght in m, 850 nm A>B
                 ^^^^^^^^^^^ unknown-heading: lenght in m heads no column here: link, fibre, end, length, seen, time, by or remark, or a reading such as 850 nm A>B. length was probably meant.
  1               142           1.12
}

readings {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B
  ^^^^^^^ missing-heading: The table lacks a column link.
  1                1.12
  2                1.12        1.13
                               ^^^^ long-row: This row has 3 cells under 2 headings. Take out what is too much, or head a column.
}
`,
  'values that cannot be held, and headings that stand twice': `
setup MM-1 {
  meter       "M-5" floor 0 mW
                          ^^^^ not-positive: 0 mW has no level in dBm. Where no light was seen, write dark.
  source      "S-1" laser wavelength 0 nm
                                     ^^^^ zero-or-below: 0 nm is no wavelength: it lies above zero. Correct the number.
  range       99999999 km
              ^^^^^^^^^^^ too-large: 99999999 km is too large to be held exactly. Look at the number and at its unit.
  cord        TC-1 launch LC OM4
  cord        TC-2 launch LC OM4
  ^^^^ repeated-word: cord for launch stands here already. Take one of the two out.
  columns fibre
  ^^^^^^^ columns-not-here: setup has no table: no line columns stands in it.
  1
}

readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm A>B
                             ^^^^^^^^^^ repeated-heading: Two columns are headed 850 nm A>B.
  1                1.12        1.12
}

cable C-1 {
  fibre       "OM4"
  count       24
  length      "3 m"
              ^^^^^ wrong-kind: "3 m" is a text; what is taken here is a length in m.
}
`,
  'one finding a line, and characters before words': `
link L-1 {
  segment     0,5 OMM
              ^^^ decimal-comma: 0,5 can be a decimal comma or a list. Write 0.5 for one number, or 0, 5 for a list.
  carries     10GBASE-SR fibers 1.5 cords 3
                                ^^^ not-whole: A whole number is taken here, from 0 upwards; 1.5 is not one.
}
`,
};

test.each(Object.entries(cases))('%s', (_, text) => {
  expect(marked(text)).toBe(text);
});

test('every finding of binding is shown here', () => {
  const shown = Object.values(cases).join('\n');
  const missing = Object.keys(bindingFindings).filter((name) => !shown.includes(` ${name}: `));
  expect(missing).toEqual([]);
});

test('a text that is changed at random is bound without a throw, one finding a line at most', () => {
  const texts = Object.values(cases).map(unmarked);
  const pieces = fc.constantFrom(
    '{',
    '}',
    '\n',
    ' ',
    ',',
    '"',
    '<length>',
    'columns',
    '-',
    '12',
    'dB',
  );
  const change = fc.tuple(fc.nat(600), fc.nat(30), pieces);
  fc.assert(
    fc.property(
      fc.constantFrom(...texts),
      fc.array(change, { minLength: 1, maxLength: 4 }),
      (text, changes) => {
        const changed = changes.reduce(
          (whole, [at, cut, piece]) => whole.slice(0, at) + piece + whole.slice(at + cut),
          text,
        );
        for (const block of splitBlocks(changed)) {
          const { findings } = bindBlock(parseBlock(block), block);
          const lineOf = ({ span }: NotationFinding) =>
            block.slice(0, span.start).split(/\r\n|[\r\n]/u).length;
          const own = findings.filter(({ name }) => Object.hasOwn(bindingFindings, name));
          const others = new Set(findings.filter((found) => !own.includes(found)).map(lineOf));
          const lines = own.map(lineOf);
          expect(lines.filter((line) => others.has(line))).toEqual([]);
          expect(new Set(lines).size).toBe(lines.length);
        }
      },
    ),
    { numRuns: 100 },
  );
});

test('a text that begins without its quotes and ends in one is bound', () => {
  expect(
    findingsOf('link L-1 Operatio"the hatch sticks\n  splice      fusion\n}\n').length,
  ).toBeGreaterThan(0);
  expect(
    marked(`
link L-1 {
  splice      fusion at closure "three"
                                ^^^^^^^ too-many-arguments: "three" is more than splice takes: splice [SPLICE] [at PLACE].
}
`),
  ).toContain('^^^^^^^ too-many-arguments');
});

test('fixes mend what they stand beside', () => {
  const text = `
cable C-101 {
  fibr        OM4
  count       24
  length      142
}

link L-1 Operations room {
  segment     38 mtr OM4
  carries     10GBASE-SR 1..2
  splice      fusion at closure under ramp 3
}

readings L-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, remark
  1                1.12
  2                1.13
  3                1.14        1.15      cleaned twice
  4              drak          1.15
}
`;
  const mended = fixed(text);
  expect(findingsOf(mended)).toEqual([]);
  expect(mended).toContain('  fibre        OM4');
  expect(mended).toContain('  length      142 m\n');
  expect(mended).toContain('link L-1 "Operations room" {');
  expect(mended).toContain('  segment     38 m OM4\n');
  expect(mended).toContain('carries     10GBASE-SR fibres 1..2');
  expect(mended).toContain('at "closure under ramp 3"');
  expect(mended).toContain('1.12 -\n  2                1.13 -\n');
  expect(mended).toContain('"cleaned twice"');
});

test('what a misspelt word opens is bound as what was meant, without a finding of its own', () => {
  const text = 'readngs L-1 {\n  setup       MM-1\n}\n';
  expect(findingsOf(text).map(({ name }) => name)).toEqual(['unknown-word']);
});
