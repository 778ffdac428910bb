/** Published windows of power written as plans: one transceiver at both ends of parts that lose what the source says. */
import type { ExactDb } from '../../grammar/src/quantity/index.ts';
import { exact, judged } from './judged.ts';

export interface PublishedWindow {
  /** Least and greatest, in dBm. */
  readonly launch: readonly [number, number];
  readonly input: readonly [number, number];
  readonly penalty?: number;
  /** What lies between loses so much at least and at most. */
  readonly parts?: readonly (readonly [number, number])[];
  /** Length in km, and its dispersion in ps/(nm·km). */
  readonly fibre?: readonly [number, number];
}

export interface WindowAnswer {
  /** Greatest loss of what lies between. */
  readonly loss: number;
  readonly margin: number;
  readonly overload: number;
  /** What an attenuator must take at least: 0 where light is not too strong. */
  readonly pad: number;
  /** What arrives at least, in dBm. */
  readonly weakest: number;
  /** ps/nm. */
  readonly dispersion: number;
}

export function windowAnswer(window: PublishedWindow): WindowAnswer {
  const { launch, input, penalty, parts = [], fibre } = window;
  const declared = parts.map(
    ([least, most], index) => `component P${index} {
  loss        min ${least} dB max ${most} dB
}`,
  );
  const [km, rate] = fibre ?? [0, 0];
  const result = judged(`plan "A published window" {
  measure     1550 nm
  directions  A>B
  reference   one-cord
  policy      counting
}

fibre GLASS {
  mode        single-mode
  attenuation 1550 nm max 0 dB/km
${fibre ? `  dispersion  1550 nm max ${rate} ps/nm/km\n` : ''}}

component END {
  loss        min 0 dB max 0 dB
}

${declared.join('\n\n')}

application LIGHT {
  count       1
  wavelength  1550 nm
  fibre       GLASS
}

transceiver ENDS {
  application LIGHT
  wavelength  1550 nm
  output      min ${launch[0]} dBm max ${launch[1]} dBm
  input       min ${input[0]} dBm max ${input[1]} dBm
${penalty === undefined ? '' : `  penalty     ${penalty} dB\n`}  dispersion  max 100000 ps/nm
}

link LIT {
  fibres      1
  component   END
${parts.map((_, index) => `  component   P${index}\n`).join('')}  segment     ${km} km GLASS
  component   END
  carries     LIGHT with ENDS
}
`).link('LIT');
  const [power] = result.power;
  const number = (value: ExactDb | undefined) => Number(exact(value));
  return {
    loss: number(power?.greatestLoss),
    margin: number(power?.margin),
    overload: number(power?.overloadMargin),
    pad: power?.attenuator ? number(power.attenuator.least) : 0,
    weakest: number(power?.margin) + input[0],
    dispersion: (power?.dispersion?.path ?? Number.NaN) / 1e6,
  };
}
