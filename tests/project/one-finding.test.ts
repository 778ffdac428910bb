/** A line that is misread is one finding: what follows from it is not said again elsewhere. */
import { describe, expect, test } from 'vitest';
import { judge, told } from '../support/judge.ts';

const plan = `plan "One finding" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  from        A:1
  to          B:1
  connector   LC
  segment     180 m OM4
  splice      fusion
  segment     20 m OM4
  connector   LC
}

link KQ-2 {
  from        A:2..3
  to          B:2..3
  connector   LC
  segment     180 m OM4
  connector   LC
}

ring KQ-RING {
  node        "Lighthouse"
  link        KQ-2 fibres 1
  node        "Fuel pier"
  link        KQ-1 fibres 1
}

link KQ-3 {
  from        C:1
  connector   SC-APC
  segment     1 km G.652.D
  splice      fusion
  split SP-1 PLC-1x2 {
    out 1 {
      splice      fusion
      segment     40 m G.652.D
      connector   SC-APC
    }
    out         2 spare
  }
}

splitter PLC-1x2 {
  ports       1:2
  loss        max 4.0 dB
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-2 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                1.12
  2                1.08
}
`;

/** What is found in a plan with a change, and not in the plan without. */
function fresh(from: string, to: string): string[] {
  expect(plan).toContain(from);
  const before = told(judge(plan).findings);
  const left = [...before];
  return told(judge(plan.replace(from, to)).findings).filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

describe('a misspelt word is read as meant', () => {
  test.each([
    'plan "',
    'uncertainty',
    'reference   one-cord\n  uncertainty',
    'link KQ-2',
    'from        A:2',
    'connector   LC',
    'segment     180',
    'splice      fusion',
    'node        "Fuel',
    'split SP',
    'splitter PLC',
    'ports ',
    'loss        max',
    'setup MM-1',
    'launch      enc',
    'cord        TC-2',
    'taken ',
    'readings KQ-2',
    'tested ',
    'values ',
  ])('%s', (line) => {
    const word = /^\w+/u.exec(line)?.[0] ?? '';
    const misspelt = `${word.slice(0, 2)}${word.slice(3)}`;
    expect(fresh(line, line.replace(word, misspelt))).toEqual([
      expect.stringMatching(
        new RegExp(`^unknown-word: \\w+ is not a word .* ${word} was probably meant`, 'u'),
      ),
    ]);
  });

  test('not where what stands behind it does not fit', () => {
    expect(fresh('segment     180 m OM4', 'segmnt      180 m')).toEqual([
      expect.stringMatching(/^unknown-word/u),
    ]);
  });
});

describe('what cannot be read is said once', () => {
  test.each([
    ['the loss of an uncertainty', 'uncertainty 0.15 dB', 'uncertainty 0.15', 'missing-unit'],
    ['a wavelength', 'measure     850 nm', 'measure     850', 'missing-unit'],
    ['an edition', 'TIA-568.3-E', 'TIA-568.3-Q7', 'unknown-reference'],
    ['a number of cords', 'one-cord\n  unc', 'four-cord\n  unc', 'unknown-choice'],
    [
      'a number of cords in a set-up',
      'one-cord\n  source',
      'four-cord\n  source',
      'unknown-choice',
    ],
    ['a check of a cord', 'verified 0.08 dB', 'verified 0.08', 'missing-unit'],
    ['the power of a reference', '-20.05 dBm', '-20.05', 'missing-unit'],
    ['a length', '180 m OM4', '180 OM4', 'missing-unit'],
    ['a fibre', '180 m OM4', '180 m OM44X', 'unknown-reference'],
    ['a connector', 'connector   SC-APC', 'connector   SC-AX', 'unknown-reference'],
    ['a span', 'link        KQ-2 fibres 1', 'hop         KQ-2 fibres 1', 'unknown-word'],
    ['an output', 'out         2 spare', 'branch      2 spare', 'unknown-word'],
    ['an output that is left out', '    out         2 spare\n', '', 'output-missing'],
    ['the greatest loss of a splitter', 'max 4.0 dB', 'max 4.0', 'missing-unit'],
  ])('%s', (_what, from, to, name) => {
    expect(fresh(from, to)).toEqual([expect.stringMatching(new RegExp(`^${name}: `, 'u'))]);
  });
});

test('a word behind a name is told to come first', () => {
  expect(fresh('splice      fusion', 'fusion splice')).toEqual([
    'unknown-word: fusion is not a word of link. splice fusion was probably meant.',
  ]);
});

test('a name that stops before its class names one that has it', () => {
  expect(fresh('  measure', '  carries     GPON\n  measure')).toEqual([
    'unknown-reference: There is no application GPON in this plan or the library. Did you mean GPON-A?',
  ]);
});
