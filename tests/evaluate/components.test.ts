/** Parts in a sum: their loss at a port and a wavelength, an attenuator's least, two pairs where they join. */
import { describe, expect, it } from 'vitest';
import { printExactDb } from '../../grammar/src/quantity/index.ts';
import { judge, told } from '../support/judge.ts';

const plan = (path: string, reading: string, reference = 'one-cord', more = '') => `plan "Parts" {
  limits      PLAIN
  measure     1550 nm
  directions  A>B
  reference   ${reference}
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1550 nm min 0.18 dB/km max 0.25 dB/km
}

connector PAIR {
  loss        max 0.5 dB
}

limits PLAIN {
  policy      counting
  fibre       GLASS 1550 nm 0.25 dB/km
  connector   any 0.5 dB
}

component PAD {
  loss        min 4.5 dB typ 5.0 dB max 5.5 dB
}

component DROP {
  loss        port drop wavelength 1550 nm max 0.9 dB
  loss        port onward wavelength 1530 nm max 0.6 dB
}
${more}
setup S {
  reference   ${reference}
  source      "S1" laser
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS reference-grade
  cord        R1 receive PAIR GLASS reference-grade verified 0.10 dB
  taken       2026-03-14 08:00 1550 nm -3.00 dBm
}

link KQ-1 {
  fibres      1
  connector   PAIR
  segment     10 km GLASS
${path}
  segment     10 km GLASS
  connector   PAIR
}

readings KQ-1 {
  setup       S
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1       ${reading}
}
`;

function result(text: string) {
  const { plan: judged, findings } = judge(text);
  const link = judged.result.link('KQ-1');
  if (!link) throw new Error(told(findings).join('\n'));
  const [at] = link.wavelengths;
  const [limit] = at?.limits ?? [];
  return {
    limit: limit?.value === undefined ? limit?.because : printExactDb(limit.value),
    lowest: at?.lowest === undefined ? undefined : printExactDb(at.lowest),
    verdict: link.verdict,
    doubts: link.doubts.map(({ name }) => name),
  };
}

it('a greatest loss for all wavelengths holds at one that states another figure only', () => {
  const text = plan('  component   PAD', '9.0');
  const apart = '  loss        wavelength 1550 nm typ 4.9 dB\n  loss        max 5.5 dB\n';
  const typical = text.replace('  loss        min 4.5 dB typ 5.0 dB max 5.5 dB\n', apart);
  // 20 km of 0.25 dB/km, two pairs of 0.5 dB, and the pad.
  expect([text, typical].map((each) => result(each).limit)).toEqual(['11.5', '11.5']);
});

describe('an attenuator', () => {
  const pad = '  component   PAD';

  it('stands in the limit with its greatest loss and in the least with its least', () => {
    // 0.25·20 + 2·0.5 + 5.5, and 0.18·20 + 4.5.
    expect(result(plan(pad, '9.4'))).toEqual({
      limit: '11.5',
      lowest: '8.1',
      verdict: 'pass',
      doubts: [],
    });
  });

  it('that is not there is seen: a reading below what it must lose is too good', () => {
    expect(result(plan(pad, '4.6')).doubts).toEqual(['loss-too-good']);
    // Without it the same reading is what one expects.
    expect(result(plan('  splice      PLAIN-SPLICE', '4.6', 'one-cord', splice)).doubts).toEqual(
      [],
    );
  });

  it('that is not there makes a reading with pairs in the reference impossible', () => {
    const { verdict, doubts } = result(plan(pad, '4.6', 'two-cord'));
    expect(verdict).toBe('invalid');
    expect(doubts).toEqual(['loss-negative']);
  });
});

const splice = '\nsplice PLAIN-SPLICE {\n  loss        max 0.1 dB\n}\n';

describe('the port of a part', () => {
  it('has its own loss', () => {
    expect(result(plan('  component   DROP port drop', '5.2')).limit).toBe('6.9');
  });

  it('has none at a wavelength that is not stated, however near: nothing is made up', () => {
    expect(result(plan('  component   DROP port onward', '5.2')).limit).toBe(
      'PLAIN has no figure for part DROP at 1550 nm',
    );
  });
});
