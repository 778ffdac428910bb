/**
 * What a path does to the signal, through the language.
 *
 * Group indices, dispersion and PMD are those of the library, read in makers'
 * data sheets and on a supplier's page of ITU-T G.652; delay is length times
 * index over c of the SI, PMD adds as the square root of length (ITU-T G.652),
 * dispersion by the three-term fit of ITU-T G.652 at the worst corners of light
 * and zero. Lengths and repairs are ours.
 */
import { describe, expect, it } from 'vitest';
import type { SignalResult } from '../../server/src/evaluate/index.ts';
import { toJson } from '../../server/src/report/json.ts';
import { resultSchema } from '../../server/src/report/schema.ts';
import { judged } from './judged.ts';
import { signalAnswer } from './signal-as-plans.ts';

const c = 299_792_458;
/** Nanoseconds over metres. */
const late = (metres: number, index: number) => (metres * index * 1e9) / c;
const ns = (femtoseconds: number | undefined) => (femtoseconds ?? Number.NaN) / 1e6;

const span = (carries = '', more = '', fibre = 'G.652.D', after = '') => `plan "Ring of the bay" {
  limits      TIA-568.3-E
  measure     1310 nm, 1550 nm
  reference   one-cord
}

cable SEA {
  fibre       ${fibre}
  count       4
  length      14.2 km
  excess      1.06 %
${more}}

link SPAN {
  fibres      1..4
  connector   LC
  segment     SEA
  connector   LC
${carries}}
${after}`;

const at = (signal: readonly SignalResult[], nanometres: number, application?: string) => {
  const found = signal.find(
    (one) => one.wavelength === nanometres * 1000 && one.application === application,
  );
  if (!found) throw new Error(`nothing at ${nanometres} nm`);
  return found;
};

describe('a span of cable', () => {
  const { signal } = judged(span()).link('SPAN');
  const along = 14_200 * 1.0106;

  it('is as long as its fibre, and light takes that long', () => {
    expect(at(signal, 1550).length).toBe(14_350_520_000);
    expect(ns(at(signal, 1310).delay)).toBeCloseTo(late(along, 1.467), 5);
    expect(ns(at(signal, 1550).delay)).toBeCloseTo(late(along, 1.468), 5);
  });

  it('spreads by its greatest figures: 18 ps/nm/km, and 0.2 ps times the root of 14.35', () => {
    const { dispersion, pmd } = at(signal, 1550);
    expect((dispersion ?? 0) / 1e6).toBeCloseTo(18 * 14.35052, 5);
    expect((pmd ?? 0) / 1e6).toBeCloseTo(0.2 * Math.sqrt(14.35052), 5);
  });

  it('where no figure is stated takes zero and slope, whichever side spreads more', () => {
    // 0.092 ÷ 4 · (1310 − 1324⁴ ÷ 1310³) = −1.31; from a zero of 1300 nm +0.91.
    const least = (0.092 / 4) * (1310 - 1324 ** 4 / 1310 ** 3);
    expect(least).toBeCloseTo(-1.31, 2);
    expect((at(signal, 1310).dispersion ?? 0) / 1e6).toBeCloseTo(-least * 14.35052, 3);
  });

  it('has no modal bandwidth, and all else is known', () => {
    expect(at(signal, 1550).bandwidth).toEqual([]);
    expect(at(signal, 1550).unknown).toEqual([]);
  });

  it('says what its fibre does not state, and takes nothing for it', () => {
    const indoor = judged(span('', '', 'OS2')).link('SPAN').signal;
    expect(ns(at(indoor, 1310).delay)).toBeCloseTo(late(along, 1.467), 5);
    expect(at(indoor, 1310)).toMatchObject({ dispersion: undefined, pmd: undefined });
    expect(at(indoor, 1310).unknown).toEqual([
      'OS2 states no dispersion at 1310 nm',
      'OS2 states no polarisation mode dispersion',
    ]);
    const bare = judged(span('', '', 'SM-INDOOR-OUTDOOR')).link('SPAN').signal;
    expect(at(bare, 1550).delay).toBeUndefined();
    expect(at(bare, 1550).unknown).toContain('SM-INDOOR-OUTDOOR states no group index at 1550 nm');
  });

  it('of a length that is unknown on purpose says nothing', () => {
    const text = span().replace('segment     SEA', 'segment     unknown G.652.D');
    expect(judged(text).link('SPAN').signal).toEqual([]);
  });
});

describe('an application', () => {
  const lr = '  carries     10GBASE-LR cords 3 m, 5 m\n';

  it('counts its cords', () => {
    const { signal } = judged(span(lr)).link('SPAN');
    const one = at(signal, 1310, '10GBASE-LR');
    expect(ns(one.delay)).toBeCloseTo(late(14_200 * 1.0106 + 8, 1.467), 5);
    expect(one.skew).toBe(0);
  });

  it('is skewed by a repair of one fibre of its pair: 120 m of index 1.467 are 587 ns', () => {
    const repair = `  repair R-1 {
    fibres      2
    on          2026-02-10
    splice      fusion
    segment     120 m G.652.D
    splice      fusion
  }
`;
    const { signal } = judged(span(lr, repair)).link('SPAN');
    const one = at(signal, 1310, '10GBASE-LR');
    expect(ns(one.skew)).toBeCloseTo(late(120, 1.467), 5);
    expect(ns(one.skew)).toBeCloseTo(587.2, 1);
    expect(ns(one.delay)).toBeCloseTo(late(14_200 * 1.0106 + 8 + 120, 1.467), 5);
    // Fibres of two pairs are not compared with each other.
    const both = judged(span(lr, repair.replace('fibres      2', 'fibres      1, 2'))).link('SPAN');
    expect(at(both.signal, 1310, '10GBASE-LR').skew).toBe(0);
  });

  it('in a channel is as late as all the channel', () => {
    const channel = `
channel CH {
  cord        3 m G.652.D straight
  link        SPAN fibres 1..2
  cord        7 m G.652.D straight
  carries     10GBASE-LR
}
`;
    const { signal } = judged(span('', '', 'G.652.D', channel)).link('CH');
    expect(ns(at(signal, 1310, '10GBASE-LR').delay)).toBeCloseTo(
      late(14_200 * 1.0106 + 10, 1.467),
      5,
    );
  });

  it('sent by a transceiver spreads over all that its light may be', () => {
    const module = `
transceiver BAND {
  wavelength  1310 nm min 1260 nm max 1360 nm
  output      min -8 dBm max 0 dBm
  input       min -20 dBm max 0 dBm
}
`;
    const { signal } = judged(
      span('  carries     10GBASE-LR with BAND\n', '', 'G.652.D', module),
    ).link('SPAN');
    const corners = [
      [1260, 1324],
      [1360, 1300],
    ].map(([light, zero]) => Math.abs((0.092 / 4) * (light! - zero! ** 4 / light! ** 3)));
    expect((at(signal, 1310, '10GBASE-LR').dispersion ?? 0) / 1e6).toBeCloseTo(
      Math.max(...corners) * 14.35052,
      3,
    );
  });
});

describe('ways', () => {
  it('of a tree have each their own delay', () => {
    const { ways, signal } = judged(`plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     1310 nm
  reference   one-cord
}

link TREE {
  from        A:1
  connector   LC
  segment     1000 m G.652.D
  splice      fusion
  split SP PLC-1x4 {
    out 1 to E-1 {
      segment     200 m G.652.D
      connector   LC
    }
    out 2 to E-2 {
      segment     900 m G.652.D
      connector   LC
    }
    out         3..4 spare
  }
}
`).link('TREE');
    expect(signal).toEqual([]);
    expect(ways.map((way) => ns(way.signal[0]?.delay))).toEqual([
      expect.closeTo(late(1200, 1.467), 5),
      expect.closeTo(late(1900, 1.467), 5),
    ]);
  });
});

describe('stretches of different grades', () => {
  it('with one that states no bandwidth leave none', () => {
    const answer = signalAnswer([
      { km: 1, bandwidth: 500, index: 1.48 },
      { km: 1, index: 1.48 },
    ]);
    expect(answer.MHz).toBeNaN();
    expect(answer.microseconds).toBeCloseTo(late(2000, 1.48) / 1000, 8);
  });

  it('add their polarisation mode dispersion by squares', () => {
    const answer = signalAnswer([
      { km: 9, pmd: 0.1 },
      { km: 16, pmd: 0.1 },
    ]);
    expect(answer.picoseconds).toBeCloseTo(0.5, 6);
  });
});

it('the JSON form says all of it, and null where nothing is known', () => {
  const { plan } = judged(span('  carries     10GBASE-LR cords 4 m\n', '', 'OS2'));
  const form = toJson({ tool: 'test', result: plan.result, files: [], findings: [] });
  expect(resultSchema.parse(JSON.parse(JSON.stringify(form)))).toEqual(form);
  expect(form.links[0]?.signal).toHaveLength(3);
  expect(form.links[0]?.signal[2]).toEqual({
    application: '10GBASE-LR',
    way: null,
    wavelength_nm: 1310,
    direction: null,
    length_m: 14_354.52,
    delay_ns: expect.closeTo(late(14_354.52, 1.467), 5),
    skew_ns: 0,
    bandwidth: [],
    dispersion_ps_nm: null,
    pmd_ps: null,
    trust: { delay: 'read', dispersion: null, pmd: null },
    unknown: ['OS2 states no dispersion at 1310 nm', 'OS2 states no polarisation mode dispersion'],
  });
});
