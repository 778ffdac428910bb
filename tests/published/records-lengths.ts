/** Records of kind c: the length that a budget allows. */
import { idealSplit } from '../../server/src/optics/index.ts';
import { between, type Computed, type Inputs, reach, repeated, sum } from './records-with.ts';

export const computed: Computed = {
  ...Object.fromEntries(
    ['C01', 'C02', 'C04'].map((id) => [
      id,
      ({ T, S, c, s, g, a }: Inputs) => {
        const budget = between(T!, S!);
        const { loss, margin } = sum({ parts: [c!, s!, g!], budget });
        return [budget, margin, reach(budget, loss, a!)];
      },
    ]),
  ),
  C05: ({ T, S, B, g, n, c, a }) => {
    const terms = { pairs: [[n!, c!]] as const, parts: [g!] };
    const own = between(T!, S!);
    return [own, sum({ ...terms, budget: B }).margin, reach(own, sum(terms).loss, a!)];
  },
  C07: ({ B, g, a }) => [sum({ parts: [g!], budget: B }).margin, reach(B!, g!, a!)],
  C08: (i) => [1, 2, 3, 4].map((n) => reach(between(i[`T${n}`]!, i[`S${n}`]!), i.d!, i[`a${n}`]!)),
  C10: ({ B, N, x, y, p, m, a }) => {
    const passive = { parts: [x!, y!, ...repeated(N! - 2, p!)] };
    const { loss } = sum(passive);
    return [
      loss,
      sum({ parts: [...passive.parts, m!], budget: B }).margin,
      reach(B!, loss + m!, a!),
    ];
  },
  C11: ({ B, n, x, y, p, m, a }) => {
    const { loss } = sum({ parts: [x!, y!, ...repeated(n!, p!)] });
    return [loss, reach(B!, loss + m!, a!)];
  },
  C13: ({ T, S1, S2, c, m, a, p }) => [
    reach(between(T!, S1!), c! + m!, a!),
    reach(between(T!, S2!), c! + m!, a!),
    reach(between(T!, S2!), c! + m! + p!, a!),
  ],
  C14: ({ T, S, m, c, a, s }) => [reach(between(T!, S!), m! + c!, a! + s!)],
  C16: ({ T, S1, S2, c, m, a, s }) =>
    [S1!, S2!].map((floor) => reach(between(T!, floor), c! + m!, a! + s!)),
  C17: ({ T, S, x, c, m, a, N1, N2 }) =>
    [N1!, N2!].map((ports) =>
      reach(between(T!, S!), x! + 4 * c! + (idealSplit(ports) ?? 0) / 1e6 + m!, 2 * a!),
    ),
  C19: ({ B, a1, a2 }) => [reach(B!, 0, a1!), reach(B!, 0, a2!)],
  C20: ({ n, c, a, L, m }) => [
    sum({ fibre: [[L!, 'km', a!, 'dB/km']], pairs: [[n!, c!]], parts: [m!] }).loss,
  ],
  C22: ({ B, n, f, a }) => [reach(B!, n! * f!, a!)],

  C23: ({ T, S, x, s, a }) => [reach(between(T!, S!), x! - s!, a! + s! / 2)],
};
