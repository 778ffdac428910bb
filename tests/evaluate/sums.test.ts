/**
 * The one sum of a limit, part by part: Σ α·L + Σ inside joints + Σ splices +
 * Σ parts + nE·E − nR·R + F added − F away, which follows from what a reading
 * physically holds (configurations of IEC 61280-4-1 and -4-2 and of
 * ISO/IEC 14763-3). Figures are ours, the arithmetic stands beside each.
 */
import { describe, expect, it } from 'vitest';
import { printExactDb } from '../../grammar/src/quantity/index.ts';
import { at, judged, multimodeParts } from '../published/judged.ts';

interface Asked {
  readonly reference?: string;
  readonly set?: string;
  readonly direction?: 'A>B' | 'B>A';
  readonly parts?: string;
}

const limitOf = (path: string, { reference = 'one-cord', set = 'PLAIN', ...more }: Asked = {}) => {
  const { link } = judged(`
plan "Part by part" {
  measure     850 nm
  directions  ${more.direction ?? 'A>B'}
  reference   ${reference}
  limits      ${set}
  uncertainty 0.15 dB
}
${multimodeParts}${more.parts ?? ''}
link KQ-1 {
  fibres      1
${path}
}
`);
  const [limit] = at(link('KQ-1'), 850, more.direction).limits;
  if (!limit) throw new Error('no limit');
  return limit;
};
const terms = (...asked: Parameters<typeof limitOf>) =>
  limitOf(...asked).terms.map(
    ({ what, count, length, total }) =>
      `${what}: ${length === undefined ? count : `${length / 1e6} m`} = ${printExactDb(total)}`,
  );
const because = (...asked: Parameters<typeof limitOf>) => limitOf(...asked).because;

const panel = `
component PANEL {
  joins       PAIR to OTHER
}

connector OTHER {
  loss        max 0.4 dB
}
`;

describe('the terms of a sum', () => {
  it('are fibre by its length, joints, splices and end pairs, equal ones counted together', () => {
    expect(
      terms(`  connector   PAIR
  segment     60 m GLASS-50
  splice      WELD
  segment     40 m GLASS-50
  connector   PAIR
  segment     100 m GLASS-50
  splice      WELD
  segment     20 m GLASS-50
  connector   PAIR`),
    ).toEqual([
      'fibre GLASS-50: 220 m = 0.66',
      'splices: 2 = 0.6',
      'mated pairs: 1 = 0.75',
      'end pairs: 2 = 1.5',
    ]);
  });

  it('lose the pairs of the reference by its cords, and grant end pairs by the policy', () => {
    const path = '  connector   PAIR\n  segment     100 m GLASS-50\n  connector   PAIR';
    expect(terms(path, { reference: 'three-cord' })).toEqual([
      'fibre GLASS-50: 100 m = 0.3',
      'end pairs: 2 = 1.5',
      'pairs in the reference: -2 = -1.5',
    ]);
    // 3.5·0.1, E = 0.50, R = 0.10.
    expect(terms(path, { reference: 'two-cord', set: 'END-PAIRS' })).toEqual([
      'fibre GLASS-50: 100 m = 0.35',
      'end pairs: 2 = 1',
      'pairs in the reference: -1 = -0.1',
    ]);
    expect(terms(path, { reference: 'three-cord', set: 'ENHANCED' })).toEqual([
      'fibre GLASS-50: 100 m = 0.35',
      'end pairs: 2 = 1',
    ]);
    expect(terms(path, { reference: 'equipment-cord' })).toEqual(['fibre GLASS-50: 100 m = 0.3']);
  });

  it('hold a part’s two pairs, the outer one among the ends where the path begins or ends with it', () => {
    const inside =
      '  connector   PAIR\n  segment     50 m GLASS-50\n  component   PANEL\n  segment     50 m GLASS-50\n  connector   PAIR';
    expect(terms(inside, { parts: panel })).toEqual([
      'fibre GLASS-50: 100 m = 0.3',
      'mated pairs: 2 = 1.5',
      'end pairs: 2 = 1.5',
    ]);
    const outside = '  component   PANEL\n  segment     100 m GLASS-50\n  component   PANEL';
    expect(terms(outside, { parts: panel })).toEqual([
      'mated pairs: 2 = 1.5',
      'fibre GLASS-50: 100 m = 0.3',
      'end pairs: 2 = 1.5',
    ]);
  });

  it('take a part that the set names by that figure, ends included', () => {
    const named = {
      set: 'NAMED',
      parts: `${panel}
limits NAMED {
  like        PLAIN
  part        PANEL 1.1 dB
}
`,
    };
    const path = '  component   PANEL\n  segment     100 m GLASS-50\n  connector   PAIR';
    expect(terms(path, named)).toEqual([
      'part PANEL: 1 = 1.1',
      'fibre GLASS-50: 100 m = 0.3',
      'end pairs: 1 = 0.75',
    ]);
  });

  it('hold a directed allowance for a step in core in its own direction alone', () => {
    const old = {
      set: 'STEPS',
      parts: `
fibre GLASS-62 {
  mode        multimode core 62.5 um
  attenuation 850 nm max 3.5 dB/km
}

limits STEPS {
  like        PLAIN
  fibre       GLASS-62 850 nm 3.5 dB/km
  core-step   GLASS-62 to GLASS-50 1.6 dB
}
`,
    };
    const path =
      '  connector   PAIR\n  segment     100 m GLASS-62\n  connector   PAIR\n  segment     100 m GLASS-50\n  connector   PAIR';
    const step = (direction: 'A>B' | 'B>A') =>
      terms(path, { ...old, direction }).filter((term) => term.startsWith('core step'));
    expect(step('A>B')).toEqual(['core step GLASS-62 to GLASS-50: 1 = 1.6']);
    expect(step('B>A')).toEqual([]);
  });
});

describe('a sum that cannot be built', () => {
  const ends = (path: string) => `  connector   PAIR\n${path}\n  connector   PAIR`;

  it('says of which part a figure is lacking, and at which wavelength where that matters', () => {
    const clear = {
      parts: `
fibre CLEAR {
  mode        multimode core 50 um
  attenuation 1300 nm max 1.0 dB/km
}

splice GLUE {
}

limits FEW {
  policy      counting
  fibre       GLASS-50 850 nm 3.0 dB/km
  connector   PAIR 0.75 dB
}
`,
      set: 'FEW',
    };
    expect(because(ends('  segment     100 m CLEAR'), clear)).toBe(
      'FEW has no figure for fibre CLEAR at 850 nm',
    );
    expect(
      because(
        ends('  segment     50 m GLASS-50\n  splice      GLUE\n  segment     50 m GLASS-50'),
        clear,
      ),
    ).toBe('FEW has no figure for splice GLUE');
  });

  it('of several reasons says the first', () => {
    const two = {
      parts: `
fibre CLEAR {
  mode        multimode core 50 um
}

fibre PURE {
  mode        multimode core 50 um
}
`,
    };
    expect(
      because(ends('  segment     50 m PURE\n  connector   PAIR\n  segment     50 m CLEAR'), two),
    ).toBe('PLAIN has no figure for fibre PURE at 850 nm');
  });
});
