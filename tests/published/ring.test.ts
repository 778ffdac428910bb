/**
 * A ring of five spans, 60.4 km round, protected the long way.
 *
 * Rule-derived: spans, joints, optics and reserves are ours. Contract figures
 * 0.35 and 0.22 dB/km, splice 0.10, pair 0.50. The long way is the sum of all
 * spans but the lost one and of the cords that let light by; the worst cut is
 * that of the shortest span. Dispersion of at most 18 ps/(nm·km) at 1550 nm: a
 * maker's data sheet of G.652.D fibre. Both ends of the receiver's window: ITU-T
 * G.957 clause 8.
 */
import { describe, expect, it } from 'vitest';
import { toNanometres } from '../../grammar/src/quantity/index.ts';
import type { LinkResult, WayResult } from '../../server/src/evaluate/index.ts';
import { at, exact, judged } from './judged.ts';

const parts = (tolerance = '800') => `
plan "Round the harbour" {
  limits      CONTRACT
  measure     1310 nm, 1550 nm
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.18 dB/km typ 0.34 dB/km max 0.35 dB/km
  attenuation 1550 nm min 0.18 dB/km typ 0.19 dB/km max 0.22 dB/km
  dispersion  1550 nm max 18 ps/nm/km
}

connector PAIR {
  loss        max 0.50 dB
}

splice WELD {
  loss        max 0.10 dB
}

limits CONTRACT {
  edition     "the case's own"
  policy      counting
  fibre       GLASS 1310 nm 0.35 dB/km
  fibre       GLASS 1550 nm 0.22 dB/km
  connector   any 0.50 dB
  splice      any 0.10 dB
}

application LINE {
  count       2
  wavelength  1550 nm
  fibre       GLASS loss 30 dB
}

transceiver FAR {
  application LINE
  wavelength  1550 nm
  output      min 0 dBm max 4 dBm
  input       min -24 dBm max -7 dBm
  penalty     2 dB
  dispersion  max ${tolerance} ps/nm
}

`;

/** Kilometres and splices of each span: one fewer than it has reels, and two of pigtails. */
const spans = [
  [9.6, 4],
  [14.2, 5],
  [11.8, 4],
  [8.4, 4],
  [16.4, 6],
] as const;
const names = ['North', 'East', 'South', 'Mole', 'West'];

/** Pieces of a kilometre, and the rest: where the splices lie changes no sum. */
const links = spans
  .map(([km, splices], index) => {
    const last = `  segment     ${km * 1000 - splices * 1000} m GLASS\n`;
    const spliced = '  segment     1000 m GLASS\n  splice      WELD\n'.repeat(splices);
    return `link S-${index + 1} {
  fibres      1..2
  connector   PAIR
${spliced}${last}  connector   PAIR
}
`;
  })
  .join('\n');

const ring = (through: boolean, more = '') => `
ring HARBOUR "Round the harbour" {
${spans
  .map(
    (_, index) =>
      `  node        "${names[index]}"${through ? ' through 3 m GLASS' : ''}\n  link        S-${index + 1}`,
  )
  .join('\n')}
  carries     LINE with FAR
${more}}
`;

const reserve = '  reserve     repairs 4\n  reserve     ageing 1.0 dB\n';

function way(result: LinkResult, name: string): WayResult {
  const found = result.ways.find((one) => one.name === name);
  if (!found) throw new Error(`no way ${name}`);
  return found;
}

const worstAt = (one: WayResult, wavelength: number) =>
  exact(one.wavelengths.find((each) => toNanometres(each.wavelength) === wavelength)?.worst);

describe('spans and long ways', () => {
  const { link, findings } = judged(parts() + links + ring(true, reserve));
  const result = link('HARBOUR');

  it('has every span as its link has it, at what the links are measured at', () => {
    const limits = spans.map((_, index) => {
      const span = link(`S-${index + 1}`);
      return [exact(at(span, 1310).governing?.value), exact(at(span, 1550).governing?.value)];
    });
    expect(limits).toEqual([
      ['4.76', '3.512'],
      ['6.47', '4.624'],
      ['5.53', '3.996'],
      ['4.34', '3.248'],
      ['7.34', '5.208'],
    ]);
    const own = result.ways.filter(({ kind }) => kind === 'span');
    expect(own.map((one) => [worstAt(one, 1310), worstAt(one, 1550)])).toEqual(limits);
  });

  it('sums the long way of each cut, with three cords of 3 m through the nodes passed', () => {
    const long = result.ways.filter(({ kind }) => kind === 'long-way');
    // 17.076, 15.964, 16.592, 17.34 and 15.38, each with 0.22·0.009 = 0.00198 of cords.
    expect(long.map((one) => [one.way.cut, worstAt(one, 1550)])).toEqual([
      ['North to East', '17.07798'],
      ['East to South', '15.96598'],
      ['South to Mole', '16.59398'],
      ['Mole to West', '17.34198'],
      ['West to North', '15.38198'],
    ]);
  });

  it('is worst where the shortest span is cut', () => {
    expect(result.worstWay).toBe('West to Mole, the long way');
    expect(exact(at(result, 1550).worst)).toBe('17.34198');
    expect(exact(at(result, 1550).governing?.value)).toBe('17.34198');
    expect(way(result, 'West to Mole, the long way').length).toBe(52_009_000_000);
  });

  it('leaves 22 − 17.34198 = 4.65802 where nothing is reserved', () => {
    const bare = judged(parts() + links + ring(true)).link('HARBOUR');
    expect(exact(way(bare, 'West to Mole, the long way').power[0]?.margin)).toBe('4.65802');
  });

  it('leaves 2.85802 after reserves, and overloads the short way', () => {
    const [long] = way(result, 'West to Mole, the long way').power;
    const [short] = way(result, 'Mole to West').power;
    expect(exact(long?.margin)).toBe('2.85802');
    // A pad on the short way: 11 − 1.512 to 22 − 3.248 − 1.8.
    expect([exact(short?.attenuator?.least), exact(short?.attenuator?.most)]).toEqual([
      '9.488',
      '16.952',
    ]);
    // On the long way: 11 − 0.18·52.009 to what is left of it.
    expect([exact(long?.attenuator?.least), exact(long?.attenuator?.most)]).toEqual([
      '1.63838',
      '2.85802',
    ]);
  });

  it('says that no pad serves both ways round, and that the light spreads too far', () => {
    expect(findings.map(({ name }) => name)).toEqual([
      'attenuator-impossible',
      'dispersion-exceeded',
    ]);
    expect(findings[0]?.message).toContain('Mole to West needs 9.49 dB at least');
    // Bounds are rounded inwards: 2.85802 dB may be taken, 2.86 may not.
    expect(findings[0]?.message).toContain('the long way needs 1.64 dB at least and bears 2.85 dB');
    // 18·52.009 = 936.162 ps/nm are more than 800; the longest span has 18·16.4 = 295.2.
    expect(findings[1]?.message).toContain('936.16 ps/nm, 136.16 ps/nm more');
    expect(findings[1]?.details.dispersion).toBe(936.162);
    const spread = way(result, 'West to North').power[0]?.dispersion?.path;
    expect(spread).toBe(295_200_000);
  });

  it('expects no readings, and adds up what is once round', () => {
    expect([result.expected, result.accepted, result.length]).toEqual([0, true, 60_412_000_000]);
  });
});

describe('a node that ends all light', () => {
  const { link, findings } = judged(parts('2000') + links + ring(false));

  it('leaves no long way past it, and says so', () => {
    expect(link('HARBOUR').ways.map(({ kind }) => kind)).toEqual(Array(5).fill('span'));
    expect(findings.map(({ name }) => name)).toEqual(['long-way-missing', 'receiver-overload']);
    expect(findings[0]?.message).toContain('past North, East, South, Mole, West');
    expect(link('HARBOUR').worstWay).toBe('West to North');
  });
});

describe('readings of the spans', () => {
  const read = (span: number, loss: string, more = '') => `
setup ONE-${span} {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -70 dBm
  cord        L1 launch PAIR GLASS reference-grade
  cord        R1 receive PAIR GLASS reference-grade verified 0.10 dB
  taken       2026-03-14 08:00 1310 nm -3.00 dBm
  taken       2026-03-14 08:00 1550 nm -3.00 dBm
}

readings S-${span} {
  setup       ONE-${span}
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 1310 nm A>B, 1310 nm B>A, 1550 nm A>B, 1550 nm B>A
  1                 ${loss}    ${loss}     ${loss}     ${loss}
  2                 ${loss}    ${loss}     ${loss}     ${loss}
}
${more}`;
  const losses = ['2.81', '3.95', '3.32', '2.63', '4.47'];
  const all = losses.map((loss, index) => read(index + 1, loss)).join('');
  const support = (result: LinkResult, name: string) => way(result, name).applications[0];

  it('foretell every way that they cover: 2.81 + 3.95 + 3.32 + 4.47 and 0.00198 of cords', () => {
    const result = judged(parts('2000') + links + ring(true) + all).link('HARBOUR');
    expect(support(result, 'Mole to West')).toMatchObject({
      support: 'predicted',
      because: expect.stringContaining('2.63 dB at most'),
    });
    expect(support(result, 'West to Mole, the long way')).toMatchObject({
      support: 'predicted',
      because: expect.stringContaining('14.552 dB at most'),
    });
  });

  it('foretell no more once work has aged one of them', () => {
    const work = '\nwork S-1 {\n  done        re-spliced\n  on          2026-03-20\n}\n';
    const result = judged(parts('2000') + links + ring(true) + all + work).link('HARBOUR');
    expect(support(result, 'North to East')?.support).toBe('by design');
    expect(support(result, 'West to Mole, the long way')?.support).toBe('by design');
    // Cut from the aged span, light does not cross it.
    expect(support(result, 'East to North, the long way')?.support).toBe('predicted');
  });

  it('stay with their links', () => {
    const { link } = judged(parts('2000') + links + ring(true) + all);
    expect(link('HARBOUR').present).toBe(0);
    expect(link('S-4').verdict).toBe('pass');
  });
});
