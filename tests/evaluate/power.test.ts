/**
 * Windows of power through the language: an outside-plant ring's spans and long
 * way as plans of their own, with figures worked by hand. Rule: worst case of
 * both ends of a receiver's window (ITU-T G.957 clause 8, G.Sup39 clause 9).
 * Numbers of the cases are ours.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, microDb, printExactDb } from '../../grammar/src/quantity/index.ts';
import { attenuatorOver } from '../../server/src/evaluate/power.ts';
import type { PowerResult } from '../../server/src/evaluate/result.ts';
import { toJson } from '../../server/src/report/json.ts';
import { judged } from '../published/judged.ts';
import { judge, told } from '../support/judge.ts';

const parts = `
fibre PLANT {
  mode        single-mode
  attenuation 1310 nm max 0.35 dB/km
  attenuation 1550 nm min 0.18 dB/km max 0.22 dB/km
  dispersion  1550 nm max 18 ps/nm/km
}

connector PAIR {
  loss        max 0.50 dB
}

splice WELD {
  loss        max 0.10 dB
}

transceiver FAR {
  wavelength  1550 nm
  output      min 0 dBm max 4 dBm
  input       min -24 dBm max -7 dBm
  penalty     2 dB
  dispersion  max 800 ps/nm
}
`;

/** `joints` splices and `pairs` pairs on so many kilometres. */
const light = (km: number, splices: number, pairs: number, more = '', settings = '') =>
  judged(`plan "Power" {
  measure     1550 nm
  directions  both
  reference   one-cord
  policy      counting
  reserve     repairs 4
  reserve     ageing 1.0 dB
${settings}}
${parts}
link SPAN {
  fibres      1..2
  connector   PAIR
${'  connector   PAIR\n'.repeat(pairs - 2)}${'  splice      WELD\n'.repeat(splices)}  segment     ${km} km PLANT
  connector   PAIR
  carries     10GBASE-ER with FAR
${more}}
`).link('SPAN');

const shown = (result: PowerResult | undefined) => ({
  greatest: result?.greatestLoss === undefined ? undefined : printExactDb(result.greatestLoss),
  least: result?.leastLoss === undefined ? undefined : printExactDb(result.leastLoss),
  margin: result?.margin === undefined ? undefined : printExactDb(result.margin),
  overload: result?.overloadMargin === undefined ? undefined : printExactDb(result.overloadMargin),
  attenuator: result?.attenuator && [
    printExactDb(result.attenuator.least),
    printExactDb(result.attenuator.most),
  ],
});

describe('both ends of the window', () => {
  it('a working span of 8.4 km is too bright: 9.488 to 16.952 dB must be taken', () => {
    const { power } = light(8.4, 4, 2);
    expect(power.map(({ direction }) => direction)).toEqual(['A>B', 'B>A']);
    expect(shown(power[0])).toEqual({
      greatest: '3.248',
      least: '1.512',
      margin: '16.952',
      overload: '-9.488',
      attenuator: ['9.488', '16.952'],
    });
  });

  it('the long way round, 52 km and its three cords, needs 1.64 to 2.858 dB', () => {
    const { power } = light(52.009, 19, 8);
    expect(shown(power[0])).toMatchObject({ greatest: '17.34198', margin: '2.85802' });
    expect(shown(light(52, 19, 8).power[0])).toMatchObject({
      overload: '-1.64',
      attenuator: ['1.64', '2.86'],
    });
  });

  it('no attenuator serves both ways round', () => {
    const both = [light(8.4, 4, 2), light(52.009, 19, 8)].flatMap(({ power }) => power[0] ?? []);
    const over = attenuatorOver(both);
    expect(over && [printExactDb(over.least), printExactDb(over.most)]).toEqual([
      '9.488',
      '2.85802',
    ]);
    expect(attenuatorOver(both.toReversed())).toEqual(over);
    // Where nothing is too bright none is needed, and where a loss is not known none is known.
    expect(attenuatorOver([{ ...both[1]!, overloadMargin: exactDb(microDb(1)) }])?.least).toBe(0n);
    expect(attenuatorOver([...both, { ...both[0]!, margin: undefined }])).toBeUndefined();
    expect(attenuatorOver([{ ...both[0]!, overloadMargin: undefined }, ...both])).toBeUndefined();
    expect(attenuatorOver([])).toBeUndefined();
  });

  it('reserves are taken from the least, once, and never from the bright side', () => {
    const [bare] = light(8.4, 4, 2, '  reserve     repairs 0\n  reserve     ageing 0 dB\n').power;
    expect(shown(bare)).toMatchObject({ margin: '18.752', overload: '-9.488' });
    const [spliced] = light(8.4, 4, 2, '  reserve     splices 3\n').power;
    expect(shown(spliced)).toMatchObject({ margin: '16.652' });
  });

  it('says which terms the least power stands on', () => {
    const [first] = light(8.4, 4, 2).power;
    expect(first?.terms.map(({ what, count }) => `${count} ${what}`)).toEqual([
      '2 mated pairs',
      '4 splices',
      '1 fibre PLANT',
      '1 penalty',
      '8 splices held in reserve',
      '1 ageing',
    ]);
  });
});

describe('dispersion', () => {
  it('adds up along the fibre: 936 ps/nm over 52 km, 295.2 over 16.4 km', () => {
    expect(light(52, 19, 8).power[0]?.dispersion).toEqual({ path: 936e6, bears: 800e6 });
    expect(light(16.4, 6, 2).power[0]?.dispersion).toEqual({ path: 295.2e6, bears: 800e6 });
  });

  it('of fibres that take different ways is the greatest: 1 km put in by a repair counts', () => {
    const repair = `  repair REP-1 {
    fibres      1
    on          2026-03-01
    splice      WELD
    segment     1 km PLANT
    splice      WELD
  }
`;
    const [first] = light(16.4, 6, 2, repair).power;
    expect(first?.dispersion).toEqual({ path: 313.2e6, bears: 800e6 });
    const other = light(16.4, 6, 2, repair.replace('fibres      1', 'fibres      2')).power[0];
    expect(other?.dispersion).toEqual({ path: 313.2e6, bears: 800e6 });
  });

  it('is not known where a fibre says nothing of it', () => {
    expect(light(8.4, 4, 2).power[0]?.dispersion?.path).toBe(151.2e6);
    const bare = judged(
      `plan "Power" {
  measure     1310 nm
  reference   one-cord
  policy      counting
}
${parts}
transceiver NEAR {
  like        FAR
  wavelength  1310 nm
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     8.4 km PLANT
  connector   PAIR
  carries     10GBASE-LR with NEAR
}
`,
    ).link('SPAN');
    expect(bare.power[0]?.dispersion).toEqual({ path: undefined, bears: 800e6 });
    expect(shown(bare.power[0])).toMatchObject({ greatest: '3.94', least: '0' });
  });
});

describe('who sends and who receives', () => {
  const twoText = (carries: string, more = '') =>
    `plan "Power" {
  measure     1310 nm
  reference   one-cord
  policy      counting
  reserve     repairs 2
}
${parts}
transceiver CENTRE {
  application GPON-B+
  wavelength  1490 nm
  output      min 2 dBm max 5 dBm
  input       min -28 dBm max -8 dBm
}

transceiver OUTLET {
  application GPON-B+
  wavelength  1310 nm
  output      min 1 dBm max 4 dBm
  input       min -27 dBm max -9 dBm
  penalty     0.5 dB
}

fibre ACCESS {
  mode        single-mode
  attenuation 1310 nm max 0.40 dB/km
  attenuation 1490 nm max 0.30 dB/km
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     10 km ACCESS
  splice      WELD
  connector   PAIR
  carries     ${carries}
${more}}
`;
  const two = (carries: string, more = '') => judged(twoText(carries, more));

  it('the first after `with` is at end A; the penalty is that of the light it receives', () => {
    const [down, up] = two('GPON-B+ with CENTRE, OUTLET').link('SPAN').power;
    // 2 - 3.0 - 0.1 - 1.0 - 0.5 - 4 · 0.1 + 27, and 1 - 4.0 - 0.1 - 1.0 - 4 · 0.1 + 28.
    expect([down, up].map((one) => [one?.from, one?.wavelength, shown(one).margin])).toEqual([
      ['CENTRE', 1_490_000, '24'],
      ['OUTLET', 1_310_000, '23.5'],
    ]);
    // 5 dBm and 4 dBm arrive at most.
    expect([down, up].map((one) => shown(one).overload)).toEqual(['-14', '-12']);
  });

  it('turned round, each sends what the application does not send in that direction', () => {
    const { findings } = two('GPON-B+ with OUTLET, CENTRE');
    expect(
      findings.filter(({ name }) => name === 'transceiver-mismatch').map(({ message }) => message),
    ).toEqual([
      'OUTLET sends 1310 nm, and GPON-B+ is sent at 1490 nm A>B; CENTRE sends 1490 nm, and GPON-B+ is sent at 1310 nm B>A. ' +
        'Name the transceivers of GPON-B+, the one at end A first, or what the path really carries.',
    ]);
  });

  it('on a shared line the channel says which light it has', () => {
    const mismatches = (line: number, sent: string) =>
      judge(`plan "Power" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}
${parts}
transceiver COLOUR {
  like        FAR
  wavelength  ${sent}
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     8 km PLANT
  connector   PAIR
}

channel CAMERA {
  cord        2 m PLANT crossed
  link        SPAN fibres 1..2
  cord        2 m PLANT straight
  wavelength  ${line} nm
  carries     10GBASE-ER with COLOUR
}
`)
        .plan.result.link('CAMERA')
        ?.power.flatMap((power) => power.mismatches);
    expect(mismatches(1551, '1551 nm')).toEqual([]);
    expect(mismatches(1471, '1471 nm')).toEqual([]);
    expect(mismatches(1551, '1531 nm')?.[0]).toBe(
      'COLOUR sends 1531 nm, and CAMERA has 1551 nm on its line',
    );
    expect(mismatches(1545, '1551 nm min 1544.5 nm max 1557.5 nm')).toEqual([]);
    expect(mismatches(1543, '1551 nm min 1544.5 nm max 1557.5 nm')).toHaveLength(2);
  });

  it('says once of a module that it is made for something else', () => {
    const { findings } = two('10GBASE-LR with OUTLET');
    const found = findings.filter(({ name }) => name === 'transceiver-mismatch');
    expect(found.map(({ message }) => message)).toEqual([
      expect.stringContaining('OUTLET is made for GPON-B+'),
    ]);
  });

  it('a transceiver that is not declared leaves no window, and no second finding', () => {
    const { plan, findings } = judge(twoText('GPON-B+ with CENTRE, NOBODY'));
    expect(plan.result.link('SPAN')?.power).toEqual([]);
    expect(told(findings).filter((text) => text.includes('NOBODY'))).toHaveLength(1);
    expect(findings.some(({ name }) => name === 'transceiver-mismatch')).toBe(false);
  });

  it('planned cords lie between the transceivers too', () => {
    const [down] = two('GPON-B+ with CENTRE, OUTLET cords 1 km, 1 km').link('SPAN').power;
    expect(shown(down).margin).toBe('23.4');
  });

  it('a repair is in the path of its fibres, and uses up one that was reserved', () => {
    const repair = `  repair REP-1 {
    fibres      1
    on          2026-03-01
    splice      WELD
    segment     1 km ACCESS
    splice      WELD
  }
`;
    const [down] = two('GPON-B+ with CENTRE, OUTLET', repair).link('SPAN').power;
    // Two splices of the reserve became two of the path, and a kilometre more: 24 - 0.3.
    expect(shown(down).margin).toBe('23.7');
    expect(down?.terms.map(({ what, count }) => `${count} ${what}`)).toContain(
      '2 splices held in reserve',
    );
  });
});

describe('how far its figures are known', () => {
  const known = (trust: string, carries = 'FAR-LINE with GRADED') =>
    judged(`plan "Power" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}
${parts}
application FAR-LINE {
  count       2
  wavelength  1550 nm
  fibre       PLANT
}

transceiver GRADED {
  wavelength  1550 nm
  output      min 0 dBm max 4 dBm
  input       min -24 dBm max 7 dBm
  basis       "its sheet" read
  penalty     2 dB
  basis       "somewhere" ${trust}
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     8 km PLANT
  connector   PAIR
  carries     ${carries}
}
`)
      .link('SPAN')
      .power.map(({ recalled }) => recalled);

  it('one figure from memory makes the window one', () => {
    expect(known('read')).toEqual([false, false]);
    expect(known('recalled')).toEqual([true, true]);
    expect(known('read', '100GBASE-ER4 with 100GBASE-ER4-PORT')).toEqual([true, true]);
  });
});

describe('what is said of an attenuator', () => {
  const said = (input: string, fibre = 'PLANT') =>
    judge(`plan "Power" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}
${parts}
application FAR-LINE {
  count       2
  wavelength  1550 nm
  fibre       ${fibre}
}

transceiver NARROW {
  wavelength  1550 nm
  output      min 0 dBm max 4 dBm
  input       ${input}
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     8.4 km ${fibre}
  connector   PAIR
  carries     FAR-LINE with NARROW
}
`)
      .findings.filter(({ name }) => name === 'receiver-overload')
      .map(({ message }) => message)
      .join();

  // Strongest 4 - 1.512 dBm, weakest 0 - 1.848 - 1.0 dBm.
  it('bounds are rounded inwards, so that they can be bought by', () => {
    expect(said('min -24.0049 dBm max -7.0051 dBm')).toContain(
      'An attenuator of 9.50 dB to 21.15 dB closes the window',
    );
  });

  it('where a hundredth would leave nothing between, all digits stand', () => {
    expect(said('min -12.3459 dBm max -7.0051 dBm')).toContain(
      'An attenuator of 9.4931 dB to 9.4979 dB closes the window',
    );
  });

  it('a fibre that counts as nothing lost is named', () => {
    expect(said('min -24 dBm max -7 dBm')).not.toContain('no least attenuation');
    expect(said('min -24 dBm max -7 dBm', 'G.652.D')).toContain(
      'G.652.D states no least attenuation and counts as nothing lost: a known `min` narrows this.',
    );
  });
});

describe('the JSON form', () => {
  const form = (text: string) => {
    const { plan } = judge(text);
    return toJson({ tool: 'test', result: plan.result, files: [], findings: [] });
  };
  const application = (carries: string, path: string) =>
    form(`plan "Power" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}
${parts}
link SPAN {
  fibres      1..2
  connector   PAIR
${path}
  connector   PAIR
  carries     ${carries}
}
`).links[0]?.applications[0];

  it('has the lesser margin of both directions, by application', () => {
    const path = '  segment     8.4 km PLANT';
    expect(application('10GBASE-ER with FAR', path)).toMatchObject({
      // 0 - 1.848 - 1.0 - 2 + 24, and -7 - 4 + 1.512.
      power_margin_db: 19.152,
      overload_margin_db: -9.488,
    });
  });

  it('says null where no transceiver is named, and where a loss is not known', () => {
    const path = '  segment     8.4 km PLANT';
    expect(application('10GBASE-ER', path)).toMatchObject({
      power_margin_db: null,
      overload_margin_db: null,
    });
    const bare = '  segment     8.4 km G.655.D';
    expect(application('10GBASE-ER with FAR', bare)).toMatchObject({
      power_margin_db: null,
      overload_margin_db: -11,
    });
  });
});

describe('what cannot be known', () => {
  it('a length that is missing leaves no margin, and says why', () => {
    const result = judged(`plan "Power" {
  measure     1550 nm
  reference   one-cord
  policy      counting
}
${parts}
fibre BARE {
  mode        single-mode
}

link SPAN {
  fibres      1..2
  connector   PAIR
  segment     100 m BARE
  connector   PAIR
  carries     10GBASE-ER with FAR
}
`).link('SPAN');
    expect(result.power[0]?.margin).toBeUndefined();
    expect(result.power[0]?.because).toBe('the parts has no figure for fibre BARE at 1550 nm');
    expect(shown(result.power[0])).toMatchObject({ overload: '-11' });
  });
});
