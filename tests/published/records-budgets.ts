/** Records of kinds a and b: passive losses, and budgets of power with their margins. */
import { microwatts, shareLeft, surfaceLoss } from '../../server/src/optics/index.ts';
import {
  absolute,
  between,
  type Computed,
  dB,
  dBm,
  type Inputs,
  rate,
  ratio,
  reach,
  sum,
  word,
} from './records-with.ts';
import { windowAnswer } from './windows-as-plans.ts';

export const computed: Computed = {
  A01: ({ L, a, nc, lc, ns, ls, h, B }) => {
    const { loss, margin } = sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      pairs: [[nc!, lc!]],
      splices: [[ns!, ls!]],
      parts: [h!],
      budget: B,
    });
    return [loss, margin];
  },
  A02: ({ L, a, n1, l1, n2, l2, B }) => {
    const { loss, margin } = sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      splices: [[n1!, l1!]],
      pairs: [[n2!, l2!]],
      budget: B,
    });
    const fibre = sum({ fibre: [[L!, 'km', a!, 'dB/km']] }).loss;
    return [
      fibre,
      sum({ splices: [[n1!, l1!]] }).loss,
      sum({ pairs: [[n2!, l2!]] }).loss,
      loss,
      margin,
      word(margin > 3),
    ];
  },
  A04: ({ L, a, m, nc, lc }) => [
    sum({ fibre: [[L!, 'm', a!, 'dB/m']], pairs: [[nc!, lc!]], parts: [m!] }).loss,
  ],
  A05: ({ L1, a1, L2, a2, s, c, x, lim }) => {
    const { loss, margin } = sum({
      fibre: [
        [L1!, 'km', a1!, 'dB/km'],
        [L2!, 'km', a2!, 'dB/km'],
      ],
      parts: [s!, c!, x!],
      budget: lim,
    });
    return [loss, word(margin >= 0)];
  },
  A07: ({ a, s, L, c1, c2 }) => [
    sum({
      fibre: [
        [L!, 'km', a!, 'dB/km'],
        [L!, 'km', s!, 'dB/km'],
      ],
      parts: [c1!, c2!],
    }).loss,
  ],
  A08: ({ Pi, Po, L, L2, n, s, a }) => {
    const { loss } = sum({ fibre: [[L2!, 'km', a!, 'dB/km']], splices: [[n!, s!]] });
    return [ratio(Pi!, Po!), rate(ratio(Pi!, Po!), L!), loss, 1 / shareLeft(dB(loss))];
  },
  A10: ({ L1, L2, a, k }) =>
    [L1!, L2!].map((length) => sum({ fibre: [[length, 'm', a!, 'dB/km']], parts: [k!] }).loss),
  A11: ({ L, a, ns, ls, nc, lc, m }) => [
    sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      splices: [[ns!, ls!]],
      pairs: [[nc!, lc!]],
      parts: [m!],
    }).loss,
  ],
  A13: ({ n1, n }) => [(2 * surfaceLoss(n1!, n!)) / 1e6],
  A14: ({ n1, n, k }) => [
    1 - shareLeft(surfaceLoss(n1!, n!)),
    surfaceLoss(n1!, n!) / 1e6,
    (k! * surfaceLoss(n1!, n!)) / 1e6,
  ],

  B01: ({ T, S, L, a, nc, lc, ns, ls, h, r }) => {
    const budget = between(T!, S!);
    return [
      budget,
      sum({
        fibre: [[L!, 'km', a!, 'dB/km']],
        pairs: [[nc!, lc!]],
        splices: [[ns!, ls!]],
        parts: [h!, r!],
        budget,
      }).margin,
    ];
  },
  B02: ({ B, L, a, nc, lc }) => [
    sum({ fibre: [[L!, 'km', a!, 'dB/km']], pairs: [[nc!, lc!]], budget: B }).margin,
  ],
  B04: ({ B, L, a, nc, lc, Tx, Rx }) => [
    sum({ fibre: [[L!, 'km', a!, 'dB/km']], pairs: [[nc!, lc!]], budget: B }).margin,
    between(Tx!, Rx!),
  ],
  B05: ({ T1, S1, T2, S2, T3, S3 }) => [between(T1!, S1!), between(T2!, S2!), between(T3!, S3!)],
  B07: ({ L, a, nc, lc, B }) => {
    const { loss, margin } = sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      pairs: [[nc!, lc!]],
      budget: B,
    });
    return [sum({ fibre: [[L!, 'km', a!, 'dB/km']] }).loss, loss, margin];
  },
  B08: ({ Thi, Tlo, Rhi, Rlo, p1, p2, p3, a, D, Ls }) => {
    const ends = { launch: [Tlo!, Thi!], input: [Rlo!, Rhi!] } as const;
    const bare = windowAnswer(ends);
    const { margin, overload } = windowAnswer({ ...ends, penalty: p1! + p2! + p3! });
    const { dispersion } = windowAnswer({ ...ends, fibre: [Ls!, D!] });
    return [bare.margin, margin, -overload, reach(margin, 0, a!), dispersion];
  },
  ...Object.fromEntries(
    ['B13', 'B14'].map((id) => [
      id,
      ({ T, t, hi, lo }: Inputs) => {
        const { margin, pad } = windowAnswer({ launch: [T! - t!, T! + t!], input: [lo!, hi!] });
        return [margin, pad];
      },
    ]),
  ),
  B16: ({ Tlo, Slo, d, Thi, Shi }) => {
    const window = { launch: [Tlo!, Thi!], input: [Slo!, Shi!], penalty: d! } as const;
    const { margin, pad } = windowAnswer(window);
    return [margin, pad];
  },
  B23: ({ T, hi, l }) => {
    const { overload, pad } = windowAnswer({
      launch: [T!, T!],
      input: [-30, hi!],
      parts: [[l!, l!]],
    });
    return [overload, pad];
  },
  B10: ({ T1, S1, T2, S2, p1, p2, p3 }) =>
    [between(T1!, S1!), between(T2!, S2!)].flatMap((gain) => [
      gain,
      sum({ parts: [p1!, p2!, p3!], budget: gain }).margin,
    ]),
  B11: ({ T, S, p1, p2, p3 }) => [
    between(T!, S!),
    sum({ parts: [p1!, p2!, p3!], budget: between(T!, S!) }).margin,
  ],
  B17: ({ T, S, L, a, ns, ls, c, m }) => {
    const budget = between(T!, S!);
    const { loss, margin } = sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      splices: [[ns!, ls!]],
      parts: [c!, m!],
      budget,
    });
    return [budget, loss, margin];
  },
  B19: ({ T, S, c1, n, j, L, a, c2 }) => {
    const budget = between(T!, S!);
    return [
      budget,
      sum({ fibre: [[L!, 'km', a!, 'dB/km']], pairs: [[n!, j!]], parts: [c1!, c2!], budget })
        .margin,
    ];
  },
  B20: ({ T, k, c, n, s, f, S1, S2 }) => {
    const terms = { splices: [[n!, s!]] as const, parts: [k!, c!, f!] };
    const { loss } = sum(terms);
    return [
      T! - loss,
      ...[S1!, S2!].map((floor) => sum({ ...terms, budget: between(T!, floor) }).margin),
    ];
  },
  B22: ({ T, S, L, a, s, n, k, p }) => [
    sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      splices: [[n!, s!]],
      parts: [k!, p!],
      budget: between(T!, S!),
    }).margin,
  ],
  B25: ({ T1, T2, S1, T3, S3, T4, S4 }) => [
    between(T1!, S1!),
    between(T2!, S1!),
    between(T3!, S3!),
    between(T4!, S4!),
  ],
  B28: ({ P1, P2, B, m, S }) => {
    const [tx, rx] = [absolute(P1!, 'uW'), absolute(P2!, 'uW')];
    return [tx, rx, between(tx, rx), S! + B! + m!, microwatts(dBm(S! + B! + m!))];
  },
  ...Object.fromEntries(
    ['B29', 'B31', 'B32'].map((id) => [
      id,
      ({ f, c, s, r, g, B }: Inputs) => {
        const { loss, margin } = sum({ parts: [f!, c!, s!, r!, g!], budget: B });
        return [loss, margin, word(margin >= 0)];
      },
    ]),
  ),

  B26: ({ m, p1, p2 }) =>
    [p1!, p2!].map(
      (plant) => windowAnswer({ launch: [0, 0], input: [-40, -m!], parts: [[plant, plant]] }).pad,
    ),
};
