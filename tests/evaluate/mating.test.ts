/**
 * Plugs that meet in one adapter, as whole plans. Housings, end faces and pins:
 * interfaces of the IEC 61754 family, from memory.
 */
import { describe, expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

const meeting = (first: string, second: string, more = '') => {
  const result = judge(`plan "Mating" {
  measure     1310 nm
  reference   one-cord
  policy      counting
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm max 0.4 dB/km
}
${more}
link TRUNK {
  fibres      1..12
  ${first}
  segment     60 m GLASS
  ${first}
}

link FAN {
  fibres      1..12
  ${second}
  segment     3 m GLASS
  connector   LC
}

channel ROW {
  link        TRUNK
  link        FAN
}
`).plan.result.link('ROW');
  if (!result) throw new Error('the channel was not judged');
  return result.doubts;
};

const kind = (name: string, lines: string) =>
  `connector ${name} {\n  loss        max 0.5 dB\n${lines}}\n`;

describe('two kinds that meet', () => {
  const said = (...args: Parameters<typeof meeting>) =>
    meeting(...args)
      .filter(({ name }) => name === 'connectors-do-not-fit')
      .map(({ details }) => details);

  it('are angled both, or neither; of a kind that does not say it is not known', () => {
    const own = kind('OWN-APC', '  polish      APC\n') + kind('OWN-PC', '  polish      PC\n');
    expect(said('connector   OWN-APC', 'plug        OWN-PC', own)).toEqual([
      {
        link: 'ROW',
        before: 'OWN-APC',
        after: 'OWN-PC',
        why: 'one end face is angled, the other is not',
      },
    ]);
    const silent = kind('OWN-APC', '  polish      APC\n') + kind('SILENT', '');
    expect(said('connector   OWN-APC', 'plug        SILENT', silent)).toEqual([]);
    expect(said('connector   SILENT', 'plug        OWN-APC', silent)).toEqual([]);
  });

  it('are not compared where one of them is declared nowhere', () => {
    expect(said('connector   LC', 'plug        NOWHERE')).toEqual([]);
    expect(said('connector   NOWHERE', 'plug        MPO-12')).toEqual([]);
    expect(said('connector   LC', 'plug        MPO-12').length).toBe(1);
  });
});

describe('two arrays that meet', () => {
  const pins = (first: string, second: string) =>
    meeting(first, second)
      .filter(({ name }) => name === 'pins-do-not-mate')
      .map(({ details, related }) => ({ ...details, related: related?.map((at) => at.message) }));

  it('have pins on one side, which the pair and the plug say alike', () => {
    const wrong = (both: number) => [
      { link: 'ROW', connector: 'MPO-12', both, related: ['What it meets.'] },
    ];
    expect(pins('connector   MPO-12 pins A', 'plug        MPO-12 pinned')).toEqual(wrong(1));
    expect(pins('connector   MPO-12 pins A', 'plug        MPO-12')).toEqual([]);
    expect(pins('connector   MPO-12 pins B', 'plug        MPO-12')).toEqual(wrong(0));
    expect(pins('connector   MPO-12 pins B', 'plug        MPO-12 pinned')).toEqual([]);
  });
});

describe('the end that a test cord meets', () => {
  const reasons = (end: string, cord: string) => {
    const { plan } = judge(`plan "Mating" {
  limits      SET
  measure     1310 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

limits SET {
  policy      counting
  fibre       GLASS 1310 nm 0.4 dB/km
  connector   any 0.5 dB
}

fibre GLASS {
  mode        single-mode core 9 um
}

${kind('ANGLED', '  polish      APC\n')}
${kind('FLAT', '  polish      PC\n')}
setup ONE {
  reference   one-cord
  source      "S-1"
  meter       "M-1" floor -60 dBm
  cord        TC-1 launch ${cord} GLASS reference-grade
  cord        TC-2 receive ${cord} GLASS reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 1310 nm -5.00 dBm
}

link L {
  fibres      1
  ${end}
  segment     500 m GLASS
  ${end}
}

readings L {
  setup       ONE
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 1310 nm A>B
  1  0.62
}
`);
    return plan.result.link('L')?.readings.map(({ reason, because }) => [reason, because]);
  };
  const mismatch = (cord: string, end: string) => [
    ['cord-polish-mismatch', `test cord TC-1 is polished ${cord} and the end it mates with ${end}`],
  ];

  it('is angled as the cord is, be it a socket or a plug', () => {
    expect(reasons('connector   FLAT', 'ANGLED')).toEqual(mismatch('APC', 'PC'));
    expect(reasons('plug        FLAT', 'ANGLED')).toEqual(mismatch('APC', 'PC'));
    expect(reasons('plug        ANGLED', 'FLAT')).toEqual(mismatch('PC', 'APC'));
    expect(reasons('connector   ANGLED', 'ANGLED')).toEqual([[undefined, '']]);
  });
});
