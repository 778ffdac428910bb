/** Published sums written as plans: fibres, pairs, splices and other parts between two ends that lose nothing. */
import type { LinkResult } from '../../server/src/evaluate/index.ts';
import { exact, judged, reading } from './judged.ts';

export interface PublishedSum {
  /** Length, unit, rate, unit: `[2, 'km', 1, 'dB/km']`. */
  readonly fibre?: readonly (readonly [number, string, number, string])[];
  /** Count and loss of each. */
  readonly pairs?: readonly (readonly [number, number])[];
  readonly splices?: readonly (readonly [number, number])[];
  /** Loss of each other part. */
  readonly parts?: readonly number[];
  /** What may be lost: a requirement of the contract. */
  readonly budget?: number;
}

/** The plan of a sum; its link is called SUM. */
function planOfSum(sum: PublishedSum, more = '', settings = ''): string {
  const declared: string[] = [];
  const path: string[] = [];
  sum.fibre?.forEach(([length, unit, rate, per], index) => {
    declared.push(`fibre F${index} {
  mode        single-mode
  attenuation 1310 nm typ ${rate} ${per} max ${rate} ${per}
}`);
    path.push(`  segment     ${length} ${unit} F${index}`);
  });
  const joints = (word: string, prefix: string, list: PublishedSum['pairs']) =>
    list?.forEach(([count, loss], index) => {
      declared.push(`${word} ${prefix}${index} {
  loss        typ ${loss} dB max ${loss} dB
}`);
      for (let n = 0; n < count; n++) path.push(`  ${word.padEnd(11)} ${prefix}${index}`);
    });
  joints('connector', 'C', sum.pairs);
  joints('splice', 'W', sum.splices);
  sum.parts?.forEach((loss, index) => {
    declared.push(`component P${index} {
  loss        typ ${loss} dB max ${loss} dB
}`);
    path.push(`  component   P${index}`);
  });
  const required = sum.budget === undefined ? '' : `  require     loss ${sum.budget} dB\n`;
  return `plan "A published sum" {
  measure     1310 nm
  directions  A>B
  reference   one-cord
  policy      counting
${settings}}

component END {
  loss        typ 0 dB max 0 dB
}

${declared.join('\n\n')}

link SUM {
  fibres      1..4
  component   END
${path.join('\n')}
  component   END
${required}}
${more}`;
}

/** Greatest loss and margin to the budget, through the whole language. */
export function lossAndMargin(sum: PublishedSum): {
  readonly loss: number;
  readonly margin: number;
} {
  const result = judged(planOfSum(sum)).link('SUM');
  const [at] = result.wavelengths;
  return { loss: Number(exact(at?.worst)), margin: Number(exact(at?.designMargin)) };
}

/** Sum of typical figures, as the plan foretells a reading. */
export function expectedLoss(sum: PublishedSum): number {
  return Number(exact(judged(planOfSum(sum)).link('SUM').wavelengths[0]?.expected));
}

const setup = (taken: string) => `
setup TEST {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -80 dBm
  cord        L1 launch LC G.652.D reference-grade
  cord        R1 receive LC G.652.D reference-grade verified 0.1 dB
  taken       2026-01-10 08:00 1310 nm ${taken}
}
`;

/** Readings of the sum's link, a fibre each, with their reference. */
export function read(
  sum: PublishedSum,
  taken: string,
  values: string,
  rows: readonly number[],
  settings = '',
): LinkResult {
  const table = rows.map((value, index) => `  ${index + 1}  ${value}`).join('\n');
  const evidence = `${setup(taken)}
readings SUM {
  setup       TEST
  tested      2026-01-10 09:00
  values      ${values}
  columns fibre, 1310 nm A>B
${table}
}
`;
  return judged(planOfSum(sum, evidence, settings)).link('SUM');
}

/** Loss of each row, in decibels. */
export function losses(result: LinkResult, count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => {
    const { loss } = reading(result, index + 1, 1310);
    return loss === undefined ? Number.NaN : loss / 1e6;
  });
}
