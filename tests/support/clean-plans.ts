/** Plans as a careful engineer would write them: everything said, everything measured, nothing wrong. Checks must be silent on them. */

/** A small generator with a seed (mulberry32, public domain), so that every run sees the same plans. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

interface Kind {
  readonly mode: 'multimode' | 'single-mode';
  readonly fibre: string;
  readonly connector: string;
  readonly wavelengths: readonly [number, number];
  /** Loss that such parts have when they are well made: dB/km, dB per pair, dB per splice. Invented. */
  readonly usual: {
    readonly rate: readonly [number, number];
    readonly pair: number;
    readonly splice: number;
  };
  readonly length: readonly [number, number];
  readonly setup: string;
  readonly uncertainty: string;
  readonly source: string;
  readonly power: number;
}

const multimode: Kind = {
  mode: 'multimode',
  fibre: 'OM4',
  connector: 'LC',
  wavelengths: [850, 1300],
  usual: { rate: [2.5, 0.7], pair: 0.22, splice: 0.06 },
  length: [40, 260],
  setup: 'MM-1',
  uncertainty: '0.15 dB',
  source: 'LED',
  power: -20,
};

const singleMode: Kind = {
  mode: 'single-mode',
  fibre: 'OS2',
  connector: 'LC',
  wavelengths: [1310, 1550],
  usual: { rate: [0.34, 0.2], pair: 0.2, splice: 0.05 },
  length: [200, 4000],
  setup: 'SM-1',
  uncertainty: '0.20 dB',
  source: 'laser',
  power: -3,
};

/** How a careful engineer launches into 50 µm fibre, with the thickness of the cord where it matters. */
const launches: readonly (readonly [launch: string, thickness: string])[] = [
  ['encircled-flux', ''],
  ['mandrel 22 mm turns 5', ' diameter 3.0 mm'],
  ['mandrel MANDREL-50', ' diameter 2.0 mm'],
  ['mandrel 25 mm turns 5', ''],
];

/** The text of one clean plan. */
export function cleanPlan(seed: number): string {
  const random = randomFrom(seed);
  const between = (from: number, to: number) => from + (to - from) * random();
  const whole = (from: number, to: number) => Math.floor(between(from, to + 1));
  const kind = random() < 0.5 ? multimode : singleMode;
  const directions = random() < 0.5 ? ['A>B'] : ['A>B', 'B>A'];
  const [short, long] = kind.wavelengths;
  const [launch = '', thickness = ''] = launches[seed % launches.length] ?? [];
  const parts: string[] = [
    `plan "Clean plan ${seed}" {
  limits      TIA-568.3-E
  measure     ${short} nm, ${long} nm for ${kind.mode}
  directions  ${directions.length === 2 ? 'both' : 'A>B'}
  reference   one-cord
  uncertainty ${kind.uncertainty}
  zone        "UTC"
}`,
    `setup ${kind.setup} {
  reference   one-cord
  source      "S-1" ${kind.source} calibrated 2026-01-12 due 2027-01-12
  meter       "M-1" floor -60 dBm calibrated 2026-01-12 due 2027-01-12${kind.mode === 'multimode' ? `\n  launch      ${launch}` : ''}
  cord        TC-1 launch ${kind.connector} ${kind.fibre} reference-grade${kind.mode === 'multimode' ? thickness : ''}
  cord        TC-2 receive ${kind.connector} ${kind.fibre} reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 ${short} nm ${(kind.power - 0.05).toFixed(2)} dBm
  taken       2026-03-14 08:10 ${long} nm ${(kind.power - 0.31).toFixed(2)} dBm
}`,
  ];
  const links = whole(1, 4);
  for (let n = 1; n <= links; n += 1) {
    const fibres = whole(1, 6) * 2;
    const middle = random() < 0.4;
    const spliced = random() < 0.4;
    const first = whole(...kind.length);
    const second = whole(20, 90);
    const lines = [`  connector   ${kind.connector}`, `  segment     ${first} m ${kind.fibre}`];
    if (spliced) lines.push('  splice      fusion', `  segment     ${second} m ${kind.fibre}`);
    if (middle)
      lines.push(`  connector   ${kind.connector}`, `  segment     ${second} m ${kind.fibre}`);
    lines.push(`  connector   ${kind.connector}`);
    parts.push(`link KQ-${n} {
  from        OPS/R${n}/A:01..${String(fibres).padStart(2, '0')}
  to          B${n}/R1/A:01..${String(fibres).padStart(2, '0')}
${lines.join('\n')}
}`);
    const km = (first + (spliced ? second : 0) + (middle ? second : 0)) / 1000;
    const pairs = 2 + (middle ? 1 : 0);
    const rows: string[] = [];
    for (let fibre = 1; fibre <= fibres; fibre += 1) {
      const joints = Array.from(
        { length: pairs },
        () => kind.usual.pair * between(0.85, 1.2),
      ).reduce((a, b) => a + b, 0);
      const cells = kind.usual.rate.flatMap((rate) => {
        const loss = rate * km + joints + (spliced ? kind.usual.splice : 0);
        return directions.map(() => (loss + between(-0.03, 0.03)).toFixed(2));
      });
      rows.push(`  ${fibre}  ${cells.join('  ')}`);
    }
    const headings = kind.wavelengths.flatMap((wavelength) =>
      directions.map((direction) => `${wavelength} nm ${direction}`),
    );
    parts.push(`readings KQ-${n} {
  setup       ${kind.setup}
  tested      2026-03-14 ${String(9 + n).padStart(2, '0')}:05 to ${String(9 + n).padStart(2, '0')}:40 by "R. Vale"
  values      loss in dB
  columns fibre, ${headings.join(', ')}
${rows.join('\n')}
}`);
    // Drawn from its own seed, so that the plans above stay what they were.
    parts.push(...otherEvidence(kind, n, fibres, lengthsIn(lines), randomFrom(seed * 31 + n)));
  }
  return `${parts.join('\n\n')}\n`;
}

/** Metres of the stretches of a path, in order, with what stands between them. */
function lengthsIn(lines: readonly string[]): readonly (number | 'connector' | 'splice')[] {
  return lines.map((line) => {
    const metres = /segment +(\d+) m/u.exec(line)?.[1];
    if (metres !== undefined) return Number(metres);
    return line.includes('splice') ? 'splice' : 'connector';
  });
}

/** End faces, seen ports with lengths, and traces, each for some of the links; all as good as the losses. */
function otherEvidence(
  kind: Kind,
  n: number,
  fibres: number,
  path: ReturnType<typeof lengthsIn>,
  random: () => number,
): string[] {
  const parts: string[] = [];
  const between = (from: number, to: number) => from + (to - from) * random();
  const numbers = Array.from({ length: fibres }, (_, index) => index + 1);
  const hour = String(9 + n).padStart(2, '0');
  if (random() < 0.3) {
    parts.push(`inspection KQ-${n} {
  tested      2026-03-14 08:40 by "R. Vale"
  criterion   ${fibres % 4 === 0 ? '"contract, clause 9"' : kind.mode === 'multimode' ? 'FACE-MM-PC' : 'FACE-SM-PC'}
  columns fibre, A,  B
${numbers.map((fibre) => `  ${fibre}  pass  pass`).join('\n')}
}`);
  }
  const total = path.reduce<number>((sum, each) => sum + (typeof each === 'number' ? each : 0), 0);
  if (random() < 0.3) {
    const rows = numbers.map((fibre) => {
      const port = `B${n}/R1/A:${String(fibre).padStart(2, '0')}`;
      return `  ${fibre}  ${port}  ${Math.round(total * between(0.999, 1.02))}`;
    });
    parts.push(`readings KQ-${n} {
  setup       ${kind.setup}
  tested      2026-03-14 ${hour}:41 by "R. Vale"
  values      loss in dB
  columns fibre, seen, length in m
${rows.join('\n')}
}`);
  }
  if (random() < 0.3) {
    const helix = between(1, 1.01);
    const rows = numbers.flatMap((fibre) => {
      let at = 0;
      const events = path.flatMap((each) => {
        if (typeof each === 'number') {
          at += each * helix;
          return [];
        }
        const loss = each === 'splice' ? kind.usual.splice : kind.usual.pair;
        // Both directions of one joint differ by how unlike its fibres scatter; none gains.
        const unlike = between(0, loss / 2);
        const pair = [loss + unlike, loss - unlike].map((value) => value.toFixed(2)).join('  ');
        return [`  ${fibre}  ${at.toFixed(1)}  ${each}  ${pair}`];
      });
      return [...events, `  ${fibre}  ${at.toFixed(1)}  end  -  -`];
    });
    parts.push(
      `setup OT-${n} {
  otdr        "T-1" calibrated 2026-01-12 due 2027-01-12
  cord        LF-1 launch ${kind.connector} ${kind.fibre} length 500 m
  cord        LF-2 tail ${kind.connector} ${kind.fibre} length 500 m${kind.mode === 'multimode' ? '\n  launch      encircled-flux' : ''}
  index       ${kind.mode === 'multimode' ? '850 nm 1.482' : '1310 nm 1.467'}
}`,
      `events KQ-${n} {
  setup       OT-${n}
  tested      2026-03-14 ${hour}:45 by "R. Vale"
  values      loss in dB
  columns fibre, at in m, kind, ${kind.wavelengths[0]} nm A>B, ${kind.wavelengths[0]} nm B>A
${rows.join('\n')}
}`,
    );
  }
  return parts;
}
