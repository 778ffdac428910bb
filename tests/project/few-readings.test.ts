/** Links of two fibres have no level each; what one set-up measured on many of them has. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/src/checks/finding.ts';
import { decodeFile } from '../../server/src/project/index.ts';
import { noise, normalFrom } from '../studies/plans.ts';
import { randomFrom } from '../support/clean-plans.ts';
import { judge, planUri, told } from '../support/judge.ts';

interface Site {
  readonly links: number;
  readonly fibres: number;
  /** What a dirty test cord takes of every reading, dB. */
  readonly high?: number;
  /** Links of which one joint is bad. */
  readonly bad?: readonly number[];
  readonly silence?: string;
}

/** Noise as in the error study: pairs 0.20 dB, reference and readings 0.02 dB; 850 nm 2.7 and 1300 nm 0.7 dB/km. */
function site(seed: number, { links, fibres, high = 0, bad = [], silence = '' }: Site): string {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const off = [normal(0, noise.reference), normal(0, noise.reference)];
  const blocks = Array.from({ length: links }, (_, at) => {
    const metres = Math.round(20 + 300 * random());
    const rows = Array.from({ length: fibres }, (_, row) => {
      const pair = () => Math.max(noise.pair.least, normal(noise.pair.mean, noise.pair.sigma));
      const joints = pair() + pair() + high + (bad.includes(at) ? 0.8 : 0);
      const cells = [2.7, 0.7].map((rate, wave) =>
        ((rate * metres) / 1000 + joints + off[wave]! + normal(0, noise.reading)).toFixed(2),
      );
      return `  ${row + 1}  ${cells.join('  ')}`;
    });
    return `link KQ-${at + 1} {
  fibres      1..${fibres}
  connector   LC
  segment     ${metres} m OM4
  connector   LC
}

readings KQ-${at + 1} {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
${rows.join('\n')}
}
`;
  });
  return `plan "Many small links" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
${silence}}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

${blocks.join('\n')}`;
}

const fileOf = (text: string) => decodeFile(new TextEncoder().encode(text));

const high = (findings: readonly Finding[]) =>
  findings.filter(({ name }) => name === 'batch-too-high');

describe('a set-up that measured a few fibres of many links', () => {
  it('is told once where all of them are high', () => {
    for (const fibres of [1, 2, 3]) {
      const [only, ...others] = high(judge(site(1, { links: 6, fibres, high: 0.8 })).findings);
      expect(others).toEqual([]);
      expect(only?.about).toBe('KQ-1');
      expect(only?.message).toMatch(
        /readings of 6 objects \(KQ-1, KQ-2, .*KQ-6\) are high together: at \d+ nm they lose 0\.\d\d dB more than their parts usually do/u,
      );
      expect(only?.related).toHaveLength(5);
    }
  });

  it('is not blamed for three links, nor for two that have a bad joint', () => {
    expect(high(judge(site(2, { links: 3, fibres: 2, high: 0.8 })).findings)).toEqual([]);
    expect(high(judge(site(3, { links: 8, fibres: 2, bad: [1, 4] })).findings)).toEqual([]);
  });

  it('is answered in the plan', () => {
    const silence = '  silence     batch-too-high because "old panels, known"\n';
    expect(high(judge(site(4, { links: 6, fibres: 2, high: 0.8, silence })).findings)).toEqual([]);
  });

  // 1,000 of them were silent when this was written.
  it('is silent on clean sites', { timeout: 600_000 }, () => {
    for (let seed = 1; seed <= 40; seed++) {
      const links = 4 + (seed % 12);
      const { findings } = judge(site(seed, { links, fibres: 1 + (seed % 3) }));
      expect({ seed, told: told(high(findings)) }).toEqual({ seed, told: [] });
    }
  });

  it('says the same whether its plan is read at once or changed line by line', () => {
    const { project, plan } = judge(site(5, { links: 6, fibres: 2 }));
    expect(high([...plan.allFindings().values()].flat())).toEqual([]);
    const dirty = site(5, { links: 6, fibres: 2, high: 0.8 });
    project.put(planUri, fileOf(dirty));
    const changed = high([...project.planOf(planUri)!.allFindings().values()].flat());
    expect(told(changed)).toEqual(told(high(judge(dirty).findings)));
    expect(changed).toHaveLength(1);
    project.put(planUri, fileOf(site(5, { links: 6, fibres: 2 })));
    expect(high([...project.planOf(planUri)!.allFindings().values()].flat())).toEqual([]);
  });
});
