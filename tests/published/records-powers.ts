/** Records of kinds d, e and f: powers and ratios, losses from powers, methods of reference. */
import { microwatts, shareLeft } from '../../server/src/optics/index.ts';
import { byMethod } from './methods-as-plans.ts';
import {
  absolute,
  between,
  type Computed,
  dB,
  dBm,
  type Inputs,
  rate,
  ratio,
  sum,
  word,
} from './records-with.ts';
import { losses, read } from './sums-as-plans.ts';

export const computed: Computed = {
  D01: ({ P1, P2, P3 }) => [absolute(P1!, 'mW'), absolute(P2!, 'mW'), absolute(P3!, 'uW')],
  D02: ({ P1, P2, P3, P4 }) => [
    absolute(P1!, 'mW'),
    absolute(P2!, 'uW'),
    absolute(P3!, 'mW') + 30,
    absolute(P4!, 'nW') + 30,
  ],
  D04: ({ P, a, L }) => {
    const launch = absolute(P!, 'uW');
    const out = launch - sum({ fibre: [[L!, 'km', a!, 'dB/km']] }).loss;
    return [launch, out, microwatts(dBm(out))];
  },
  D05: ({ a, L1, L2 }) =>
    [L1!, L2!].map(
      (length) => 100 * (1 - shareLeft(dB(sum({ fibre: [[length, 'km', a!, 'dB/km']] }).loss))),
    ),
  D07: ({ P }) => [absolute(P!, 'uW')],
  D08: ({ r, g, x, y }) => [
    -ratio(1, r!),
    1 / shareLeft(dB(g!)),
    microwatts(dBm(x!)) / 1000,
    microwatts(dBm(y!)) / 1000,
  ],
  D11: ({ i, r, l, m }) => {
    const power = absolute(i! / r!, 'uW');
    return [i! / r!, power, power + l! + m!];
  },

  D10: ({ al, L, P, l }) => {
    const out = P! - sum({ parts: [l!] }).loss;
    // 4.343 dB to a neper, as the source rounds it.
    return [
      sum({ fibre: [[L!, 'km', Number((4.343 * al!).toFixed(6)), 'dB/km']] }).loss,
      out,
      microwatts(dBm(out)) / 1000,
    ];
  },

  E01: ({ r, p }) => losses(read({}, `${r} dBm`, 'power in dBm', [p!]), 1),
  E02: ({ P0, P1, P2, P3 }) => {
    const [one, two] = losses(read({}, `${P0} uW`, 'power in uW', [P1!, P2!]), 2);
    return [(100 * P2!) / (P1! + P2!), ratio(P0!, P1! + P2!), one, two, -ratio(P0!, P3!)];
  },
  ...Object.fromEntries(
    ['E04', 'E05'].map((id) => [
      id,
      ({ P1, P2, P3, P4 }: Inputs) => {
        const [one, two] = losses(read({}, `${P1} uW`, 'power in uW', [P3!, P4!]), 2);
        return [ratio(P1!, P3! + P4!), one, two, -ratio(P1!, P2!), (100 * P3!) / (P3! + P4!)];
      },
    ]),
  ),
  E07: ({ v2, v1, L1, L2, u }) => [rate(ratio(v2!, v1!), L1! - L2!), rate(u!, L1! - L2!)],
  E08: ({ Pi, Po, L }) => {
    const [loss] = losses(read({}, `${Pi} mW`, 'power in mW', [Po!]), 1);
    return [loss, rate(loss ?? Number.NaN, L!)];
  },

  F01: ({ r1, r2, r3, ro }) =>
    [r2!, r3!, ro!].map((other) => sum({ parts: [other], budget: r1! }).margin),
  F02: ({ L, a, c, h }) => [
    byMethod({ method: 'one-cord', fibre: [L!, a!], pair: c!, hidden: h! }).expected,
  ],
  F04: ({ L, a, c, h }) => [
    byMethod({ method: 'three-cord', fibre: [L!, a!], pair: c!, hidden: h! }).expected,
  ],
  F05: ({ c, f }) => {
    const cord = { fibre: [0.02, f! / 0.02], pair: c!, hidden: 0.1, end: 'plug' } as const;
    return [
      byMethod({ ...cord, method: 'one-cord', direct: true }).expected,
      byMethod({ ...cord, method: 'one-cord' }).expected,
    ];
  },
  F07: ({ L, a, c, x }) => {
    const terms = { fibre: [L!, a!], pair: c!, hidden: c!, loss: x! } as const;
    const [one, three] = (['one-cord', 'three-cord'] as const).map((method) =>
      byMethod({ ...terms, method }),
    );
    return [
      one?.limit,
      three?.limit,
      word(one?.verdict === 'pass'),
      word(three?.verdict === 'pass'),
    ];
  },
  F08: ({ t, h }) => {
    const loss = between(t!, h!);
    const judged = byMethod({ method: 'one-cord', fibre: [0.1, 2.5], pair: 0, hidden: h!, loss });
    return [loss, judged.verdict === 'invalid' ? 'INVALID' : 'VALID'];
  },
};
