/** Published figures of a signal written as plans: stretches of fibre that state just what the source does. */
import { judged } from './judged.ts';

export interface PublishedStretch {
  readonly km: number;
  /** MHz·km. */
  readonly bandwidth?: number;
  /** ps/(nm·km). */
  readonly dispersion?: number;
  /** Group index; six decimals count. */
  readonly index?: number;
  /** ps/√km. */
  readonly pmd?: number;
}

export interface SignalAnswer {
  /** Not a number where the plan cannot know it. */
  readonly MHz: number;
  readonly dispersion: number;
  readonly microseconds: number;
  readonly picoseconds: number;
}

const parts = `component END {
  loss        max 0 dB
}
`;

export function signalAnswer(stretches: readonly PublishedStretch[]): SignalAnswer {
  const mode = stretches.some(({ bandwidth }) => bandwidth !== undefined)
    ? 'multimode core 50 um'
    : 'single-mode core 9 um';
  const declared = stretches.map(({ bandwidth, dispersion, index, pmd }, at) => {
    const lines = [
      bandwidth === undefined ? '' : `  bandwidth   1300 nm min ${bandwidth} MHz.km overfilled\n`,
      dispersion === undefined ? '' : `  dispersion  1300 nm max ${dispersion} ps/nm/km\n`,
      index === undefined ? '' : `  index       1300 nm ${index.toFixed(6)}\n`,
      pmd === undefined ? '' : `  pmd         max ${pmd} ps/sqrt-km\n`,
    ];
    return `fibre F${at} {\n  mode        ${mode}\n${lines.join('')}}\n`;
  });
  const path = stretches.map(({ km }, at) => `  segment     ${km} km F${at}\n`);
  const [signal] = judged(`plan "A published signal" {
  measure     1300 nm
  reference   one-cord
}

${[parts, ...declared].join('\n')}
link LIT {
  fibres      1
  component   END
${path.join('  splice      fusion\n')}  component   END
}
`).link('LIT').signal;
  const held = (value: number | undefined, unit: number) => (value ?? Number.NaN) / unit;
  return {
    MHz: held(signal?.bandwidth[0]?.value, 1e3),
    dispersion: held(signal?.dispersion, 1e6),
    microseconds: held(signal?.delay, 1e9),
    picoseconds: held(signal?.pmd, 1e6),
  };
}

/** What an application of the library may lose on so much of a fibre, asked of a link of that length. */
export function applicationLoss(application: string, fibre: string, metres: number): number {
  const [found] = judged(`plan "A published row" {
  limits      TIA-568.3-E
  measure     850 nm
  reference   one-cord
}

link ROW {
  fibres      1..2
  connector   LC
  segment     ${metres} m ${fibre}
  connector   LC
  carries     ${application}
}
`).link('ROW').applications;
  if (found?.lengthLimit !== metres * 1e6) return Number.NaN;
  return (found.lossLimit ?? Number.NaN) / 1e6;
}
