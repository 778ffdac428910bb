/**
 * A ring of outside plant, its spans built of reels, and a repair of one span.
 *
 * Rule-derived: figures are ours. Component sum with the contract's figures:
 * attenuation per kilometre of cable, splices = reels − 1 + 2 pigtails
 * (common practice, no source). A repair: the new limit from the new make-up,
 * and the rise over the reading before it at most the allowances of what was
 * put in (our own rule). Fibre over sheath 0.5 to 3 %: from memory.
 */
import { describe, expect, it } from 'vitest';
import { toMetres } from '../../grammar/src/quantity/index.ts';
import { at, doubt, doubts, exact, judged, limit, margin, reading, verdict } from './judged.ts';

const figures = `
plan "Ring round the harbour" {
  limits      CONTRACT
  measure     1310 nm, 1550 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS-9 {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.18 dB/km max 0.4 dB/km
  attenuation 1550 nm min 0.18 dB/km max 0.4 dB/km
}

connector PAIR {
  loss        max 0.75 dB
}

splice WELD {
  loss        max 0.3 dB
}

limits CONTRACT {
  edition     "clause 7" contract
  policy      counting
  fibre       GLASS-9 1310 nm 0.35 dB/km
  fibre       GLASS-9 1550 nm 0.22 dB/km
  connector   any 0.50 dB
  connector   any 0.20 dB reference
  splice      any 0.10 dB
}

setup SM-1 {
  reference   one-cord
  source      "S-4" laser
  meter       "M-5" floor -70 dBm
  cord        TC-7 launch PAIR GLASS-9 reference-grade
  cord        TC-8 receive PAIR GLASS-9 reference-grade verified 0.10 dB
  taken       2026-04-14 08:20 1310 nm -3.10 dBm
  taken       2026-04-14 08:20 1550 nm -3.42 dBm
  taken       2026-05-04 08:20 1310 nm -3.10 dBm
  taken       2026-05-04 08:20 1550 nm -3.42 dBm
}

pattern pigtail {
  connector   PAIR
  splice      WELD
}
`;

/** A span of some reels, and the link over it: pigtails spliced on at both ends. */
const span = (name: string, reels: readonly number[], more = '', linkMore = '') => `
cable C-${name} {
  fibre       GLASS-9
  count       12 tubes 1
${reels
  .map((metres, index) => `  reel        R-${index + 1} ${metres} m`)
  .join(`\n  splice      WELD\n`)}
${more}}

link ${name} {
  fibres      1..12
  as          pigtail
  segment     C-${name}
  as          pigtail turned
${linkMore}}
`;

const spans: readonly (readonly [string, readonly number[]])[] = [
  ['SPAN-1', [4000, 4000, 1600]],
  ['SPAN-2', [4000, 4000, 4000, 2200]],
  ['SPAN-3', [4000, 4000, 3800]],
  ['SPAN-4', [4000, 4000, 400]],
  ['SPAN-5', [4000, 4000, 4000, 4000, 400]],
];

describe('spans of 4 km reels', () => {
  const { link, findings } = judged(figures + spans.map((each) => span(...each)).join(''));

  it.each([
    ['SPAN-1', 9600, 4, '4.76', '3.512'],
    ['SPAN-2', 14200, 5, '6.47', '4.624'],
    ['SPAN-3', 11800, 4, '5.53', '3.996'],
    ['SPAN-4', 8400, 4, '4.34', '3.248'],
    ['SPAN-5', 16400, 6, '7.34', '5.208'],
  ])('%s: %i m, %i splices, %s and %s dB', (name, metres, splices, short, long) => {
    const result = link(name);
    expect(result.length && toMetres(result.length)).toBe(metres);
    const term = at(result, 1310).governing?.terms.find(({ what }) => what === 'splices');
    expect(term?.count).toBe(splices);
    expect(limit(result, 1310, 'CONTRACT')).toBe(short);
    expect(limit(result, 1550, 'CONTRACT')).toBe(long);
  });

  it('finds nothing against them', () => {
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

const readings = (day: string, rows: readonly string[], object = 'SPAN-2') => `
readings ${object} {
  setup       SM-1
  tested      ${day} 09:00 to 11:00
  values      loss in dB
  columns fibre, 1550 nm A>B
${rows.map((row) => `  ${row}`).join('\n')}
}
`;

/** 120 m put in at 7.4 km with two splices, on a day. */
const repair = (fibres: string) => `  repair REP-1 {
    fibres      ${fibres}
    at          7.4 km
    on          2026-05-02
    splice      WELD
    segment     120 m GLASS-9
    splice      WELD
  }
`;

describe('a repair of span 2: 120 m and two splices', () => {
  const reels = spans[1]![1];
  const before = readings('2026-04-14', ['7  3.62', '8  3.60', '9  3.55']);
  const after = readings('2026-05-04', ['7  3.83', '8  4.02']);
  const { link, findings } = judged(
    figures + span('SPAN-2', reels, repair('1..12'), '  reserve     repairs 4\n') + before + after,
    '2026-06-01 12:00',
  );
  const result = link('SPAN-2');

  it('gives the repaired fibres the new limit', () => {
    expect(limit(result, 1550, 'CONTRACT')).toBe('4.8504');
    expect(exact(reading(result, 7, 1550).limit?.value)).toBe('4.8504');
    expect(result.length && toMetres(result.length)).toBe(14320);
  });

  it('judged readings from before by the limit of their time', () => {
    expect(exact(reading(result, 7, 1550, 'A>B', 1).limit?.value)).toBe('4.624');
  });

  it('passes fibre 7: 0.21 dB more, 0.2264 allowed', () => {
    expect(verdict(result, 7, 1550)).toBe('pass');
    expect(margin(reading(result, 7, 1550))).toBe('1.0204');
    expect(doubts(result, 7)).toEqual([]);
  });

  it('fails fibre 8 by its rise: 0.42 dB, though it is within the new limit', () => {
    const one = reading(result, 8, 1550);
    expect(one.verdict).toBe('fail');
    expect(one.reason).toBe('rise-after-repair');
    expect(exact(one.limit?.value)).toBe('3.8264');
    expect(margin(one)).toBe('-0.1936');
    expect(doubt(result, 'rise-after-repair', 8)).toMatchObject({
      rise: 0.42,
      allowed: 0.2264,
      before: 3.6,
      loss: 4.02,
    });
    expect(doubts(result, 8)).not.toContain('over-limit');
    expect(findings.map(({ name }) => name)).toContain('rise-after-repair');
  });

  it('leaves every other fibre stale until it is read again', () => {
    expect(verdict(result, 9, 1550)).toBe('stale');
    expect(reading(result, 9, 1550).because).toBe(
      'repair REP-1 on 2026-05-02, after it was measured',
    );
  });

  it('counts one of four', () => {
    expect(findings.map(({ name }) => name)).not.toContain('repair-reserve-used-up');
  });
});

describe('a repair that touched two fibres', () => {
  const reels = spans[1]![1];
  const rows = ['7  3.62', '8  3.60', '9  3.55'];
  const { link } = judged(
    `${figures}${span('SPAN-2', reels, repair('7..8'))}
channel OVER-ALL {
  cord        3 m GLASS-9 straight
  link        SPAN-2 fibres 8..9
  cord        2 m GLASS-9 straight
}
${readings('2026-04-14', rows)}${readings('2026-04-14', ['1  3.70', '2  3.70'], 'OVER-ALL')}`,
    '2026-06-01 12:00',
  );

  it('ages their readings and no others', () => {
    const result = link('SPAN-2');
    expect([7, 8, 9].map((fibre) => verdict(result, fibre, 1550))).toEqual([
      'stale',
      'stale',
      'pass',
    ]);
  });

  it('ages the channel that holds one of them, in the channel’s numbers', () => {
    const channel = link('OVER-ALL');
    expect([1, 2].map((fibre) => verdict(channel, fibre, 1550))).toEqual(['stale', 'pass']);
  });

  it('ages what was read on its own day, when no time of day is said', () => {
    const sameDay = judged(
      `${figures}${span('SPAN-2', reels, repair('7..8'))}${readings('2026-05-02', rows).replace(
        'setup       SM-1',
        'setup       SM-2',
      )}
setup SM-2 {
  like        SM-1
  taken       2026-05-02 08:20 1550 nm -3.42 dBm
}
`,
      '2026-06-01 12:00',
    ).link('SPAN-2');
    expect([7, 9].map((fibre) => verdict(sameDay, fibre, 1550))).toEqual(['stale', 'pass']);
  });
});

describe('sheath and fibre', () => {
  it('limits by the sheath with its slack, reaches by the fibre', () => {
    const text = span('SPAN-1', [4000, 4000, 1600], '  slack       200 m\n  excess      1.5 %\n');
    const { link } = judged(
      `${figures}${text.replace(
        '  as          pigtail turned\n',
        '  as          pigtail turned\n  carries     LONG\n',
      )}
application LONG {
  count       2
  wavelength  1550 nm
  fibre       GLASS-9 reach 9900 m loss 20 dB
}
`,
    );
    const result = link('SPAN-1');
    expect(result.length && toMetres(result.length)).toBe(9800);
    expect(limit(result, 1550, 'CONTRACT')).toBe('3.556');
    // 9800 m of sheath hold 9947 m of fibre: over the reach of 9900 m.
    expect(result.applications[0]?.support).toBe('not supported');
    expect(doubt(result, 'reach-exceeded')).toMatchObject({ length: 9947 });
  });
});
