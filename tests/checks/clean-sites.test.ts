/** Cables of reels with what they carry, and arrays with their channels, as a careful engineer would leave them: checks must be silent on them. */
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../support/clean-plans.ts';
import { judge, told } from '../support/judge.ts';

function drawn(seed: number) {
  const random = randomFrom(seed);
  const between = (from: number, to: number) => from + (to - from) * random();
  const whole = (from: number, to: number) => Math.floor(between(from, to + 1));
  return { random, between, whole };
}

/** dB/km, invented near the typical figures of the fibre. */
const wavelengths = { 1310: 0.34, 1550: 0.19 } as const;

/** A cable of two to five reels, a link spliced to pigtails at both ends, and equipment on it; lengths measured. */
function cleanCable(seed: number): string {
  const { between, whole } = drawn(seed);
  const reels = Array.from({ length: whole(2, 5) }, () => whole(1800, 4300));
  const lines = reels.flatMap((metres, index) => [
    ...(index > 0 ? [`  splice      fusion at "closure ${index}"`] : []),
    `  reel        R-${index + 1} ${metres} m marks ${10 * index}..${10 * index + metres}`,
  ]);
  const slack = reels.slice(1).map((_, index) => `  slack       15 m at "closure ${index + 1}"`);
  const metres = reels.reduce((sum, each) => sum + each, 0) + 15 * slack.length;
  const fibres = 2 * whole(1, 6);
  const rows = Array.from({ length: fibres }, (_, index) => {
    // A joint takes the same at both wavelengths.
    const joints = 2 * 0.2 * between(0.9, 1.2) + (reels.length + 1) * 0.05 * between(0.5, 1.5);
    const cells = Object.values(wavelengths).flatMap((rate) => {
      const loss = (rate * (metres + 4)) / 1000 + joints;
      return [0, 1].map(() => (loss + between(-0.03, 0.03)).toFixed(2));
    });
    const length = Math.round((metres + 4) * between(1.008, 1.012));
    return `  ${index + 1}  ${cells.join('  ')}  ${length}  QUAY/P1:${String(index + 1).padStart(2, '0')}`;
  });
  return `plan "Clean cable ${seed}" {
  limits      TIA-568.3-E
  measure     1310 nm, 1550 nm for single-mode
  directions  both
  reference   one-cord
  uncertainty 0.20 dB
  zone        "UTC"
  spares      40 %
  reserve     repairs 2
  reserve     ageing 1.0 dB
}

application LINE {
  count       2
  wavelength  1550 nm
  fibre       OS2 reach 40 km loss 20 dB
}

transceiver LINE-1 {
  application LINE
  wavelength  1550 nm
  output      min -2 dBm max 3 dBm
  input       min -24 dBm max 3 dBm
  damage      8 dBm
  penalty     1.0 dB
  dispersion  max 800 ps/nm
}

cable C-1 {
  fibre       G.652.D
  count       24 tubes 2
  excess      1 %
  colours     TIA-598
  jacket      ${fibres % 4 === 0 ? 'black' : 'yellow'}
  route       "quay duct 7"
${[...lines, ...slack].join('\n')}
}

pattern pigtail {
  connector   SC-APC
  segment     2 m G.657.A1
  splice      fusion
}

link KQ-1 {
  from        CORE/P1:01..${String(fibres).padStart(2, '0')}
  to          QUAY/P1:01..${String(fibres).padStart(2, '0')}
  as          pigtail
  segment     C-1 fibres 1..${fibres}
  as          pigtail turned
  carries     LINE fibres 1..2 with LINE-1
}

setup SM-1 {
  reference   one-cord
  source      "S-1" laser wavelength 1310 nm, 1550 nm calibrated 2026-01-12 due 2027-01-12
  meter       "M-1" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  cord        TC-1 launch SC-APC OS2 reference-grade
  cord        TC-2 receive SC-APC OS2 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 1310 nm -3.05 dBm
  taken       2026-03-14 08:10 1550 nm -3.31 dBm
  checked     2026-03-14 15:10 1310 nm -3.07 dBm
  checked     2026-03-14 15:10 1550 nm -3.30 dBm
}

readings KQ-1 {
  setup       SM-1
  tested      2026-03-14 09:05 to 14:40 by "R. Vale"
  values      loss in dB
  columns fibre, 1310 nm A>B, 1310 nm B>A, 1550 nm A>B, 1550 nm B>A, length in m, seen
${rows.join('\n')}
}
`;
}

/** Trunks of twelve places between two panels, and channels of parallel lanes over each. */
function cleanArrays(seed: number): string {
  const { between, whole } = drawn(seed);
  const trunks = whole(1, 4);
  const parts = Array.from({ length: trunks }, (_, index) => {
    const n = index + 1;
    const metres = whole(12, 60);
    const rows = Array.from({ length: 12 }, (_row, place) => {
      const loss = (2.6 * metres) / 1000 + 2 * 0.25 * between(0.85, 1.2);
      const cells = [0, 1].map(() => (loss + between(-0.03, 0.03)).toFixed(2));
      return `  ${place + 1}  ${cells.join('  ')}`;
    });
    return `link T-${n} {
  from        ROW-A/${n}:M1
  to          ROW-B/${n}:M1
  fibres      1..12
  connector   MPO-12 pins B
  segment     ${metres} m OM4 map reversed
  connector   MPO-12 pins A
  spare       5..8
}

channel CH-${n} {
  from        SW-A/${n}:Q1
  to          SW-B/${n}:Q1
  cord        ${whole(1, 4)} m OM4 map reversed
  link        T-${n}
  cord        ${whole(1, 4)} m OM4 map reversed
  carries     100GBASE-SR4 fibres 1..4, 9..12
}

readings T-${n} {
  setup       ARRAY-1
  tested      2026-03-15 1${n}:10 to 1${n}:50 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
${rows.join('\n')}
}
`;
  });
  return `plan "Clean arrays ${seed}" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

setup ARRAY-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-11 launch MPO-12 OM4 reference-grade
  cord        TC-12 receive MPO-12 OM4 reference-grade verified 0.09 dB
  taken       2026-03-15 10:00 850 nm -21.10 dBm
  checked     2026-03-15 16:10 850 nm -21.12 dBm
}

${parts.join('\n')}`;
}

const seeds = Array.from({ length: 60 }, (_, seed) => seed + 1);

describe('on clean sites', () => {
  it('checks are silent on sixty cables of reels, with their lengths and their light', {
    timeout: 60_000,
  }, () => {
    for (const seed of seeds) {
      const { plan, findings } = judge(cleanCable(seed));
      expect(told(findings), `cable ${seed}`).toEqual([]);
      expect(plan.result.totals.accepted, `cable ${seed}`).toBe(true);
      const [light] = plan.result.link('KQ-1')?.power ?? [];
      expect(light?.margin, `cable ${seed}`).toBeGreaterThan(0n);
    }
  });

  it('and on sixty sites of arrays, with the lanes of their channels', { timeout: 300_000 }, () => {
    for (const seed of seeds) {
      const { plan, findings } = judge(cleanArrays(seed));
      expect(told(findings), `arrays ${seed}`).toEqual([]);
      expect(plan.result.totals.accepted, `arrays ${seed}`).toBe(true);
      expect(plan.result.link('CH-1')?.applications[0]?.support).not.toBe('not supported');
    }
  });
});
