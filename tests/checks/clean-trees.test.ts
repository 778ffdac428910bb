/** Trees and rings as a careful engineer would write and measure them: checks must be silent on them. */
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../support/clean-plans.ts';
import { judge, told } from '../support/judge.ts';

const head = (title: string) => `plan "${title}" {
  limits      TIA-568.3-E
  measure     1310 nm, 1550 nm for single-mode
  directions  B>A
  reference   one-cord
  uncertainty 0.20 dB
  zone        "UTC"
}

setup SM-1 {
  reference   one-cord
  source      "S-1" laser calibrated 2026-01-12 due 2027-01-12
  meter       "M-1" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  cord        TC-1 launch SC-APC OS2 reference-grade
  cord        TC-2 receive SC-APC OS2 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 1310 nm -3.05 dBm
  taken       2026-03-14 08:10 1550 nm -3.31 dBm
}
`;

/** Losses that such parts have when they are well made: dB/km, dB a pair, dB a splice. Invented. */
const usual = { rate: { 1310: 0.34, 1550: 0.19 }, pair: 0.2, splice: 0.05 };
/** Greatest and usual loss of the library's splitters, the usual ones invented. */
const splitters = [
  ['PLC-1x2', 2, 3.6],
  ['PLC-1x4', 4, 6.8],
  ['PLC-1x8', 8, 10.1],
] as const;

interface End {
  readonly name: string;
  readonly metres: number;
  readonly splices: number;
  readonly split: number;
}

function cleanTree(seed: number): string {
  const random = randomFrom(seed);
  const whole = (from: number, to: number) => from + Math.floor(random() * (to - from + 1));
  const pick = () => splitters[whole(0, splitters.length - 1)]!;
  const feeder = whole(300, 6000);
  const ends: End[] = [];
  const drops = (name: string, outputs: number, at: Omit<End, 'name'>, indent: string) => {
    const used = whole(1, outputs);
    const metres = whole(15, 280);
    const first = ends.length + 1;
    const alike = random() < 0.5;
    const lines: string[] = [];
    for (let out = 1; out <= used; out += 1) {
      const own = alike ? metres : metres + out;
      ends.push({
        name: `E/${ends.length + 1}`,
        ...at,
        metres: at.metres + own,
        splices: at.splices + 1,
      });
      if (!alike) lines.push(`out         ${out} to E/${ends.length} as drop length ${own} m`);
    }
    if (alike)
      lines.push(`out         1..${used} to E/${first}..${ends.length} as drop length ${metres} m`);
    if (used < outputs) lines.push(`out         ${used + 1}..${outputs} spare`);
    return `split ${name} ${splitterOf.get(name)![0]} {\n${lines.map((line) => `${indent}  ${line}`).join('\n')}\n${indent}}`;
  };
  const splitterOf = new Map([
    ['SP-1', pick()],
    ['SP-2', pick()],
  ]);
  const [first, outputs, loss] = splitterOf.get('SP-1')!;
  let body: string;
  if (random() < 0.5) {
    body = drops('SP-1', outputs, { metres: feeder, splices: 1, split: loss }, '  ');
  } else {
    const [, inner, innerLoss] = splitterOf.get('SP-2')!;
    const between = whole(30, 900);
    const second = drops(
      'SP-2',
      inner,
      { metres: feeder + between, splices: 3, split: loss + innerLoss },
      '      ',
    );
    body = `split SP-1 ${first} {
    out 1 {
      splice      fusion
      segment     ${between} m G.652.D
      splice      fusion
      ${second}
    }
    out         2..${outputs} spare
  }`;
  }
  const rows = ends.map(({ name, metres, splices, split }) => {
    const joints = 2 * usual.pair * (0.9 + 0.2 * random()) + splices * usual.splice + split;
    const cells = ([1310, 1550] as const).map((nm) =>
      ((usual.rate[nm] * metres) / 1000 + joints + 0.04 * (random() - 0.5)).toFixed(2),
    );
    return `  ${name}  ${cells.join('  ')}`;
  });
  return `${head(`Clean tree ${seed}`)}
pattern drop {
  splice      fusion
  segment     <length> G.657.A2
  connector   SC-APC
}

link TREE {
  from        CORE/1:01
  connector   SC-APC
  segment     ${feeder} m G.652.D
  splice      fusion
  ${body}
}

readings TREE {
  setup       SM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns end, 1310 nm B>A, 1550 nm B>A
${rows.join('\n')}
}
`;
}

function cleanRing(seed: number): string {
  const random = randomFrom(seed);
  const whole = (from: number, to: number) => from + Math.floor(random() * (to - from + 1));
  const spans = whole(2, 6);
  const parts: string[] = [head(`Clean ring ${seed}`)];
  const nodes: string[] = [];
  for (let n = 1; n <= spans; n += 1) {
    const metres = whole(200, 9000);
    const rows = [1, 2].map((fibre) => {
      const joints = 2 * usual.pair * (0.9 + 0.2 * random());
      const cells = ([1310, 1550] as const).map((nm) =>
        ((usual.rate[nm] * metres) / 1000 + joints + 0.04 * (random() - 0.5)).toFixed(2),
      );
      return `  ${fibre}  ${cells.join('  ')}`;
    });
    parts.push(`link S-${n} {
  fibres      1..2
  connector   SC-APC
  segment     ${metres} m G.652.D
  connector   SC-APC
}

readings S-${n} {
  setup       SM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 1310 nm B>A, 1550 nm B>A
${rows.join('\n')}
}
`);
    nodes.push(`  node        "Node ${n}" through 3 m G.652.D\n  link        S-${n}`);
  }
  return `${parts.join('\n')}\nring RING {\n${nodes.join('\n')}\n}\n`;
}

const seeds = Array.from({ length: 100 }, (_, seed) => seed + 1);

describe('on clean trees and rings', () => {
  it('checks are silent on a hundred trees, all of whose ends pass', { timeout: 300_000 }, () => {
    for (const seed of seeds) {
      const { plan, findings } = judge(cleanTree(seed));
      expect(told(findings), `tree ${seed}`).toEqual([]);
      const result = plan.result.link('TREE');
      expect(result?.accepted, `tree ${seed}`).toBe(true);
      expect(result?.present).toBe(2 * (result?.ways.length ?? 0));
    }
  });

  it('and on a hundred rings, each span with its long way', { timeout: 300_000 }, () => {
    for (const seed of seeds) {
      const { plan, findings } = judge(cleanRing(seed));
      expect(told(findings), `ring ${seed}`).toEqual([]);
      const ways = plan.result.link('RING')?.ways ?? [];
      expect(ways.filter(({ kind }) => kind === 'long-way')).toHaveLength(ways.length / 2);
    }
  });
});
