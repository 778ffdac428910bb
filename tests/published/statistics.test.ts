/**
 * Mean and three standard deviations, beside what judges.
 *
 * Six connections of IEC 61753-1 grade C, mean 0.25 dB, 97 % at 0.50 dB and so a
 * sigma of 0.133 dB if the spread were normal: figures of a connector supplier's
 * page; the sum against the statistic is arithmetic on them. A system maker's
 * worked single-mode example: two connections of variance 0.06 dB², two
 * mechanical splices of 0.01 dB²; the loss of its fibre is ours.
 */
import { describe, expect, it } from 'vitest';
import { at, exact, judged } from './judged.ts';

const plan = (parts: string, path: string) =>
  judged(`plan "Statistics" {
  measure     1310 nm
  directions  A>B
  reference   one-cord
  policy      counting
}

fibre GLASS {
  mode        single-mode
  attenuation 1310 nm typ 0.5 dB/km max 0.5 dB/km sigma 0 dB/km
}

component END {
  loss        typ 0 dB max 0 dB sigma 0 dB
}

${parts}
link SUM {
  fibres      1
  component   END
${path}  component   END
}
`).link('SUM');

const gradeC = (more: string) => `connector GRADE-C {
  loss        typ 0.25 dB max 0.50 dB${more}
}
`;

describe('six connections of grade C', () => {
  const path = `${'  connector   GRADE-C\n'.repeat(6)}  segment     0 m GLASS\n`;

  it('are 3.00 dB by their greatest and 2.48 dB by mean + 3 sigma', () => {
    const result = at(plan(gradeC(' sigma 0.133 dB'), path), 1310);
    expect(exact(result.worst)).toBe('3');
    expect(exact(result.expected)).toBe('1.5');
    // 6 · 0.25 + 3 · 0.133 · √6
    expect(Number(exact(result.statistical))).toBeCloseTo(2.4773, 4);
  });

  it('say nothing of it where one states no spread', () => {
    expect(at(plan(gradeC(''), path), 1310).statistical).toBeUndefined();
  });

  it('judge nothing by it', () => {
    const result = plan(gradeC(' sigma 0.133 dB'), path);
    expect(at(result, 1310).limits).toEqual([]);
    expect(result.doubts.map(({ name }) => name)).not.toContain('budget-over-limit');
  });
});

it('connections and splices of a worked example, by the library', () => {
  const path = `  connector   SM-STATISTICAL
  splice      mechanical-statistical
  segment     19.76 km GLASS
  splice      mechanical-statistical
  connector   SM-STATISTICAL
`;
  const result = at(plan('', path), 1310);
  // 2 · 0.35 + 2 · 0.15 + 19.76 · 0.5, and 3 · √(2 · 0.06 + 2 · 0.01).
  expect(exact(result.expected)).toBe('10.88');
  expect(Number(exact(result.statistical))).toBeCloseTo(10.88 + 3 * Math.sqrt(0.14), 5);
});
