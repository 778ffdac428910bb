/**
 * An array trunk alone and in cassettes.
 *
 * Rule-derived: figures are ours. What one, two and three cords hold:
 * configurations of IEC 61280-4-1 as a trade text prints them; that three cords
 * with reference-grade plugs hold both end pairs: ISO/IEC 14763-3, clause E.1,
 * in two magazines. 0.75 dB for an array pair as for any: from memory.
 * 40GBASE-SR4 rows (150 m, 1.5 dB, connections 1.0; 100 m, 1.9 dB, connections
 * 1.5): manufacturer's tables of IEEE 802.3, the second from memory.
 */
import { describe, expect, it } from 'vitest';
import { doubt, exact, judged, limit, multimodeParts, reading, verdict } from './judged.ts';

const trunk = (policy: string, cords: string) => `
plan "Trunk" {
  limits      ${policy}
  measure     850 nm
  directions  A>B
  reference   three-cord
  uncertainty 0.15 dB
}
${multimodeParts}
setup THREE {
  reference   three-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  ${cords}
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

link KQ-T1 {
  fibres      1..12
  plug        PAIR
  segment     72 m GLASS-50
  plug        PAIR
}

readings KQ-T1 {
  setup       THREE
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       0.62
}
`;

const graded = `cord        L1 launch PAIR GLASS-50 reference-grade
  cord        S1 substitution PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB`;

describe('a trunk between its plugs, three cords', () => {
  it.each([
    ['PLAIN', '0.216', 'fail'],
    ['END-PAIRS', '1.052', 'pass'],
    ['ENHANCED', '1.252', 'pass'],
  ])('by %s the limit is %s dB and 0.62 dB is a %s', (policy, expected, word) => {
    const one = reading(judged(trunk(policy, graded)).link('KQ-T1'), 1, 850);
    expect(exact(one.limit?.value)).toBe(expected);
    expect(one.verdict).toBe(word);
  });

  it('reference-grade at 3.0 dB/km: 0.216 + 2·(0.50 − 0.10) = 1.016 dB', () => {
    const text = trunk('THREE-FORM', graded).replace(
      'setup THREE {',
      'limits THREE-FORM {\n  like        END-PAIRS\n  fibre       GLASS-50 850 nm 3.0 dB/km\n}\n\nsetup THREE {',
    );
    expect(exact(reading(judged(text).link('KQ-T1'), 1, 850).limit?.value)).toBe('1.016');
  });

  it('is invalid while the grade of the cords is not said, whatever the policy', () => {
    const ungraded = graded.replaceAll(' reference-grade', '');
    for (const policy of ['PLAIN', 'END-PAIRS', 'ENHANCED']) {
      const result = judged(trunk(policy, ungraded)).link('KQ-T1');
      expect(verdict(result, 1, 850)).toBe('invalid');
      expect(doubt(result, 'cord-grade-missing').method).toBe('three-cord');
    }
  });

  it('is not earned by a declaration: the check must be there and within its figure', () => {
    const unchecked = graded.replace(' verified 0.08 dB', '');
    expect(verdict(judged(trunk('END-PAIRS', unchecked)).link('KQ-T1'), 1, 850)).toBe('invalid');
    const poor = graded.replace('0.08 dB', '0.14 dB');
    const result = judged(trunk('END-PAIRS', poor)).link('KQ-T1');
    expect(verdict(result, 1, 850)).toBe('invalid');
    expect(doubt(result, 'cord-out-of-spec')).toMatchObject({ check: 0.14, figure: 0.1 });
  });
});

const cassettes = (limits: string, contract = '') => `
plan "Cassettes" {
  limits      ${limits}
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}
${multimodeParts}
connector ARRAY {
  positions   12
  loss        max 0.75 dB
}

component CASSETTE {
  joins       ARRAY to PAIR
  map         straight
  loss        max 1.50 dB
}
${contract}
application TEN-G {
  count       2
  wavelength  850 nm
  fibre       GLASS-50 reach 400 m loss 2.9 dB
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

link KQ-T2 {
  fibres      1..12
  component   CASSETTE
  segment     72 m GLASS-50
  component   CASSETTE
  carries     TEN-G cords 2 m, 2 m
}

readings KQ-T2 {
  setup       ONE
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       1.80
}
`;

const owner = `
limits OWNER {
  edition     "clause 9" contract
  like        PLAIN
  connector   PAIR 0.50 dB
  connector   ARRAY 0.35 dB
}
`;

describe('a link in cassettes: each holds two joints', () => {
  it('counts four pairs: 3.216 dB, with end pairs 2.752 dB, by the contract 1.916 dB', () => {
    const result = judged(cassettes('PLAIN, END-PAIRS, OWNER', owner)).link('KQ-T2');
    expect(limit(result, 850, 'PLAIN')).toBe('3.216');
    expect(limit(result, 850, 'END-PAIRS')).toBe('2.752');
    expect(limit(result, 850, 'OWNER')).toBe('1.916');
    expect(verdict(result, 1, 850)).toBe('marginal-pass');
  });

  it('the application brought to the link, 2.888 dB, governs where there is no contract', () => {
    const result = judged(cassettes('PLAIN')).link('KQ-T2');
    const one = reading(result, 1, 850);
    expect(exact(one.limit?.value)).toBe('2.888');
    expect(one.limit?.kind).toBe('application');
  });

  it('is not supported by design at the greatest figures: 3.228 dB', () => {
    const bare = cassettes('PLAIN').replace('  1       1.80\n', '');
    const [application] = judged(bare).link('KQ-T2').applications;
    expect(application?.support).toBe('not supported');
    expect(application?.because).toContain('3.228 dB');
  });

  it('is predicted where every fibre reads well both ways it is lit: this mating only', () => {
    const rows = Array.from({ length: 12 }, (_, index) => `  ${index + 1}  1.80  1.80`).join('\n');
    const text = cassettes('PLAIN')
      .replace('  directions  A>B', '  directions  both')
      .replace(
        'columns fibre, 850 nm A>B\n  1       1.80',
        `columns fibre, 850 nm A>B, 850 nm B>A\n${rows}`,
      );
    const [application] = judged(text).link('KQ-T2').applications;
    expect(application?.support).toBe('predicted');
    expect(application?.because).toContain('1.812 dB');
    expect(application?.because).toContain('this mating only');
  });
});

const arrays = (pair: string) => `
plan "Arrays" {
  limits      PLAIN
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}
${multimodeParts}
fibre GLASS-50-LONG {
  like        GLASS-50
  meets       GLASS-50
}

connector ARRAY {
  positions   12
  loss        max ${pair} dB
}

application FORTY-G {
  count       8
  wavelength  850 nm
  fibre       GLASS-50-LONG reach 150 m loss 1.5 dB connections 1.0 dB
  fibre       GLASS-50 reach 100 m loss 1.9 dB connections 1.5 dB
}

link KQ-T3 {
  fibres      1..12
  connector   ARRAY
  segment     72 m GLASS-50-LONG
  connector   ARRAY
  carries     FORTY-G fibres 1..4, 9..12 cords 3 m, 3 m
  spare       5..8
}
`;

describe('rows of an application hold as a whole or not at all', () => {
  it('the longer row breaks on loss and connections; the shorter holds for the better fibre too', () => {
    const [application] = judged(arrays('0.75')).link('KQ-T3').applications;
    expect(application).toMatchObject({ support: 'by design', row: 'GLASS-50, 100 m, 1.9 dB' });
    expect(application?.because).toContain('1.734 dB');
  });

  it('with 0.35 dB a pair the longer row holds as well', () => {
    const [application] = judged(arrays('0.35')).link('KQ-T3').applications;
    expect(application).toMatchObject({
      support: 'by design',
      row: 'GLASS-50-LONG, 150 m, 1.5 dB',
    });
    expect(application?.because).toContain('0.934 dB');
  });
});
