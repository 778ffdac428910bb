/** What binding says about texts that do not fit the vocabulary, and how it mends them. */
import { expect, test } from 'vitest';
import { findingsOf, fixed, marked } from './binding-marks.ts';

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
              ^^^^^^^^^^^^ too-fine: 0.1234567 dB has more decimals than are held: at most 6 in dB.
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
  ^^^^ repeated-word: loss stands here twice; it may stand once.
}

link L-1 {
  from        A:1
  from        A:2
  ^^^^ repeated-word: from stands here twice; it may stand once.
}

links "Many" as tail {
^^^^^ missing-columns: links lacks its table: a line columns, and the rows below it.
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
