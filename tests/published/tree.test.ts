/**
 * A passive optical network, 1:4 times 1:8, of class B+: every end by its own sum.
 *
 * Rule-derived: fibre lengths, joints and uncertainty are ours. Class B+ has 13
 * to 28 dB: 28 in a public table, 13 from memory of ITU-T G.984.2 Amendment 1;
 * launch and receive levels: an equipment maker's data sheets; greatest splitter
 * losses: a maker's table of planar splitters; the least loss of a splitter is
 * its even split, 10·log10 N, by conservation of energy; differential of 15 dB
 * and penalty of 0.5 dB from memory of ITU-T G.984.2.
 */
import { describe, expect, it } from 'vitest';
import { toNanometres } from '../../grammar/src/quantity/index.ts';
import type { LinkResult, WayResult } from '../../server/src/evaluate/index.ts';
import { at, exact, judged, margin, micro, reading } from './judged.ts';

const parts = `
plan "Passive network" {
  limits      CASE
  measure     1310 nm, 1490 nm
  reference   one-cord
  uncertainty 0.20 dB
  directions  both
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.18 dB/km typ 0.34 dB/km max 0.35 dB/km
  attenuation 1490 nm min 0.18 dB/km typ 0.24 dB/km max 0.25 dB/km
}

connector PAIR {
  loss        max 0.50 dB
}

splice WELD {
  loss        max 0.10 dB
}

splitter QUARTER {
  ports       1:4
  loss        max 7.4 dB
}

splitter EIGHTH {
  ports       1:8
  loss        max 10.7 dB
}

limits CASE {
  edition     "the case's own"
  policy      counting
  fibre       GLASS 1310 nm 0.35 dB/km
  fibre       GLASS 1490 nm 0.25 dB/km
  connector   any 0.50 dB
  splice      any 0.10 dB
}

application CLASS-B {
  count       1
  wavelength  1310 nm B>A
  wavelength  1490 nm A>B
  fibre       GLASS loss 28 dB min 13 dB differential 15 dB
}

transceiver HEAD {
  application CLASS-B
  wavelength  1490 nm
  output      min 1.5 dBm max 5 dBm
  input       min -28 dBm max -8 dBm
  penalty     0.5 dB
}

transceiver TAIL {
  application CLASS-B
  wavelength  1310 nm
  output      min 0.5 dBm max 5 dBm
  input       min -27 dBm max -8 dBm
  penalty     0.5 dB
}

pattern drop {
  splice      WELD
  segment     5 m GLASS
  connector   PAIR
  segment     5 m GLASS
  connector   PAIR
  segment     <length> GLASS
  splice      WELD
  segment     5 m GLASS
  connector   PAIR
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -70 dBm
  cord        L1 launch PAIR GLASS reference-grade
  cord        R1 receive PAIR GLASS reference-grade verified 0.10 dB
  taken       2026-03-14 08:00 1310 nm -3.00 dBm
  taken       2026-03-14 08:00 1490 nm -3.20 dBm
}
`;

/** Two ends at the far 1:8, 280 and 35 m behind it; the other outputs of the 1:4 as said. */
const tree = (others: string, carries = 'CLASS-B with HEAD, TAIL', more = '') => `
link KQ-PON {
  from        CORE/1:01
  connector   PAIR
  segment     6000 m GLASS
  splice      WELD
  segment     200 m GLASS
  splice      WELD
  split SP-1 QUARTER {
    out 1 {
      splice      WELD
      segment     1000 m GLASS
      connector   PAIR
      segment     100 m GLASS
      splice      WELD
      split SP-2 EIGHTH {
        out         1 to FAR as drop length 265 m
        out         2 to NEAR as drop length 20 m
        out         3..8 spare
      }
    }
    ${others}
  }
  carries     ${carries}
${more}}
`;

const built = 'out         2..4 spare';
/** An end put on a spare output of the first splitter, 40 m behind it. */
const early = `out 2 to CLOSE {
      splice      WELD
      segment     5 m GLASS
      as          drop length 20 m
    }
    out         3..4 spare`;
const pad = 'component PAD-10 {\n  loss        min 9 dB max 11 dB\n}\n';
const padded = `out 2 to CLOSE {
      splice      WELD
      component   PAD-10
      segment     5 m GLASS
      as          drop length 20 m
    }
    out         3..4 spare`;

const readings = (far: string, setup = 'ONE', values = 'loss in dB') => `
readings KQ-PON {
  setup       ${setup}
  tested      2026-03-14 09:00 by "R. Vale"
  values      ${values}
  columns end, 1310 nm B>A, 1490 nm A>B
  ${far}
}
`;

function way(result: LinkResult, name: string): WayResult {
  const found = result.ways.find((one) => one.name === name);
  if (!found) throw new Error(`no way to ${name}`);
  return found;
}

/** Least and greatest loss of what it carries, by wavelength: `1310`, `23.853`, `16.4159`. */
function light(of: WayResult | LinkResult): readonly (readonly (number | string | undefined)[])[] {
  return (of.applications[0]?.light ?? []).map(({ wavelength, greatest, least }) => [
    toNanometres(wavelength),
    exact(greatest),
    exact(least),
  ]);
}

function differential(result: LinkResult) {
  const found = result.applications[0]?.differential;
  return found && [exact(found.value), found.highest, found.lowest];
}

describe('as it is built', () => {
  const { link, findings } = judged(parts + tree(built));
  const result = link('KQ-PON');

  it('names the ends in order of the text, and counts what is spare', () => {
    expect(result.fibres.map(({ fibre, end }) => [fibre, end])).toEqual([
      [1, 'FAR'],
      [2, 'NEAR'],
    ]);
    expect(result.link.splits?.map(({ name, spare }) => [name, spare.length])).toEqual([
      ['SP-1', 3],
      ['SP-2', 6],
    ]);
    expect(result.expected).toBe(4);
  });

  it('sums 0.35·7.58 + 7.4 + 10.7 + 5·0.50 + 6·0.10 to the far end', () => {
    const far = way(result, 'FAR');
    expect(far.length).toBe(7_580_000_000);
    const limits = far.wavelengths.map(({ wavelength, limits: all, worst, governing }) => [
      toNanometres(wavelength),
      exact(all.find(({ name }) => name === 'CASE')?.value),
      exact(worst),
      governing?.name,
    ]);
    expect(limits).toEqual([
      [1310, '23.853', '23.853', 'CASE'],
      [1490, '23.095', '23.095', 'CASE'],
    ]);
    // The link says what its worst end says.
    expect(result.worstWay).toBe('FAR');
    expect(exact(at(result, 1310).worst)).toBe('23.853');
  });

  it('leaves 4.147 of the class, and 3.3718 above its least', () => {
    expect(light(way(result, 'FAR'))[0]).toEqual([1310, '23.853', '16.4159']);
    // 0.18·7.335 + 10·log10 4 + 10·log10 8
    expect(light(way(result, 'NEAR'))[0]).toEqual([1310, '23.76725', '16.3718']);
    const up = way(result, 'FAR').power.find(({ direction }) => direction === 'B>A');
    expect(exact(up?.margin)).toBe('4.147');
    expect(way(result, 'FAR').applications[0]?.support).toBe('by design');
  });

  it('has ends no further apart than 7.4812', () => {
    expect(differential(result)).toEqual(['7.4812', 'FAR', 'NEAR']);
    expect(findings).toEqual([]);
  });

  it('keeps 3.747 with four splices in reserve', () => {
    const reserved = judged(parts + tree(built, undefined, '  reserve     splices 4\n')).link(
      'KQ-PON',
    );
    const up = way(reserved, 'FAR').power.find(({ direction }) => direction === 'B>A');
    expect(exact(up?.margin)).toBe('3.747');
    // Never of an acceptance limit.
    expect(exact(at(reserved, 1310).governing?.value)).toBe('23.853');
  });
});

describe('an end on a spare output of the first splitter', () => {
  const { link, findings } = judged(parts + tree(early));
  const result = link('KQ-PON');
  const close = way(result, 'CLOSE');

  it('loses 7.1438 at least and 12.084 at most', () => {
    expect(light(close)[0]).toEqual([1310, '12.084', '7.1438']);
    expect(close.applications[0]?.support).toBe('not supported');
  });

  it('would receive 5 − 7.1438 dBm, 5.8562 more than it bears, and a pad of that to 15.916 fits', () => {
    const up = close.power.find(({ direction }) => direction === 'B>A');
    expect(exact(up?.overloadMargin)).toBe('-5.8562');
    expect([exact(up?.attenuator?.least), exact(up?.attenuator?.most)]).toEqual([
      '5.8562',
      '15.916',
    ]);
  });

  it('lies 16.7092 from the far end: an error on the tree', () => {
    expect(differential(result)).toEqual(['16.7092', 'FAR', 'CLOSE']);
    const said = findings.filter(({ severity }) => severity === 'error').map(({ name }) => name);
    expect(said).toEqual([
      'application-loss-too-low',
      'differential-exceeded',
      'receiver-overload',
      'receiver-overload',
    ]);
    const [low, apart] = findings.filter(({ severity }) => severity === 'error');
    expect(low?.message).toContain('CLOSE may lose as little as 7.14 dB, 5.86 dB too little');
    expect(apart?.message).toContain('FAR may lose 16.71 dB more than CLOSE at 1310 nm');
  });

  it('fits with a pad of 10 ± 1, at worst 7.7092 apart', () => {
    const with10 = judged(parts + pad + tree(padded));
    expect(differential(with10.link('KQ-PON'))).toEqual(['7.7092', 'FAR', 'CLOSE']);
    expect(with10.findings).toEqual([]);
  });
});

describe('readings of the far end', () => {
  const read = (row: string) => judged(parts + tree(built) + readings(row));
  const far = (result: LinkResult) =>
    (
      [
        ['1310', 'B>A'],
        ['1490', 'A>B'],
      ] as const
    ).map(([nm, direction]) => {
      const one = reading(result, 1, Number(nm), direction);
      return [one.verdict, margin(one)];
    });

  it('21.9 and 21.3 pass by 1.953 and 1.795, with no bend', () => {
    const { link, findings } = read('FAR  21.9  21.3');
    expect(far(link('KQ-PON'))).toEqual([
      ['pass', '1.953'],
      ['pass', '1.795'],
    ]);
    // The other end is still to be read.
    expect(findings.map(({ name }) => name)).toEqual(['readings-missing']);
    expect(findings[0]?.message).toContain('NEAR, 1310 nm B>A');
  });

  it('24.6 fails by 0.747 though it is inside the class: it would run, and is not what was designed', () => {
    const { link, findings } = read('FAR  24.6  21.3');
    expect(far(link('KQ-PON'))[0]).toEqual(['fail', '-0.747']);
    const over = findings.find(({ name }) => name === 'over-limit');
    expect(over?.message).toContain('Fibre 1 (FAR) at 1310 nm B>A');
    expect(way(link('KQ-PON'), 'FAR').applications[0]).toMatchObject({ support: 'predicted' });
  });

  it('22.0 and 23.4 fail at 1490 by 0.305, and look like a bend of 2.158', () => {
    const { link } = read('FAR  22.0  23.4');
    expect(far(link('KQ-PON'))).toEqual([
      ['pass', '1.853'],
      ['fail', '-0.305'],
    ]);
  });

  it('both wavelengths of one direction show the bend: 23.4 − 22.0 + 0.10·7.58', () => {
    const { link } = judged(
      `${parts}${tree(built)}${readings('FAR  22.0  23.4').replace('1310 nm B>A', '1310 nm A>B')}`,
    );
    const found = link('KQ-PON').doubts.find(({ name }) => name === 'bend-signature-sm');
    expect(found?.details).toMatchObject({ excess: 2.158, end: 'FAR' });
  });
});

describe('power at the outlet', () => {
  const light = (taken: string) => `
setup LIVE {
  source      "head in service"
  meter       "M1"
${taken}}
`;
  const outlet = (taken: string) =>
    judged(
      `${parts}${light(taken)}${tree(built)}${readings('FAR  -  -25.8', 'LIVE', 'power in dBm')}`,
    ).link('KQ-PON');

  it('−25.8 dBm from +3.2 is 29 dB: over the class though the receiver would hear it', () => {
    const one = reading(outlet('  taken       2026-03-14 08:30 1490 nm 3.2 dBm\n'), 1, 1490, 'A>B');
    expect(one.verdict).toBe('fail');
    expect(micro(one.loss)).toBe('29');
  });

  it('without the launch that it came from it is not judged', () => {
    expect(reading(outlet(''), 1, 1490, 'A>B').verdict).toBe('not-judged');
  });
});

describe('work on a tree', () => {
  const cleaned = (fibres: string) => `
work KQ-PON {
  done        re-spliced
${fibres}  on          2026-03-15 10:00
}
`;
  const both = readings('FAR  21.9  21.3').replace(
    '\n}\n',
    '\n  NEAR                21.8          21.2\n}\n',
  );
  const verdicts = (work: string) =>
    judged(parts + tree(built) + both + work)
      .link('KQ-PON')
      .fibres.map((fibre) => fibre.verdict);

  it('ages the ends that it names, and all of them on what they share', () => {
    expect(verdicts('')).toEqual(['pass', 'pass']);
    expect(verdicts(cleaned('  fibres      2\n'))).toEqual(['pass', 'stale']);
    expect(verdicts(cleaned(''))).toEqual(['stale', 'stale']);
  });
});
