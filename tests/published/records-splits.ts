/** Records of kind j: stars, buses and trees. */
import { idealSplit } from '../../server/src/optics/index.ts';
import { exact, judged } from './judged.ts';
import {
  absolute,
  between,
  type Computed,
  ratio,
  reach,
  repeated,
  split,
  sum,
} from './records-with.ts';
import { windowAnswer } from './windows-as-plans.ts';

export const computed: Computed = {
  J10: ({ s, x, T1, T2 }) => {
    const parts = [x!, s!, s!].map((loss) => [loss, loss] as const);
    const [one, two] = [T1!, T2!].map((launch) =>
      windowAnswer({ launch: [launch, launch], input: [-40, 10], parts }),
    );
    return [one?.loss, one?.weakest, two?.weakest];
  },
  J11: () => [2, 3, 4, 8, 16, 32, 64, 128].map((outputs) => (idealSplit(outputs) ?? 0) / 1e6),
  J14: () => {
    const [down, up] = judged(`plan "Class" {
  measure     1310 nm
  reference   one-cord
  policy      counting
}


fibre GLASS {
  meets       OS2
  mode        single-mode
  attenuation 1310 nm max 0 dB/km
  attenuation 1490 nm max 0 dB/km
}

component END {
  loss        min 0 dB max 0 dB
}

link BRANCH {
  fibres      1
  component   END
  segment     1 m GLASS
  component   END
  carries     GPON-B+ with GPON-B+-CENTRE, GPON-B+-OUTLET
}
`).link('BRANCH').power;
    const [most, least] = [Number(exact(down?.margin)), -Number(exact(down?.overloadMargin))];
    return [most, least, Number(exact(up?.margin))];
  },

  J01: ({ Pi, Po, N }) => [split(N!) + ratio(Pi!, Po! * N!)],
  J02: ({ N, m, e, n, s }) => [
    sum({ parts: [split(N!), ...repeated(m!, e!)], splices: [[n!, s!]] }).loss,
  ],
  J04: ({ a, L, c, N1, e1, N2, e2 }) =>
    [
      [N1!, e1!],
      [N2!, e2!],
    ].map(
      ([stations, excess]) =>
        sum({
          fibre: [[2 * L!, 'km', a!, 'dB/km']],
          pairs: [[2, c!]],
          parts: [excess!, split(stations!)],
        }).loss,
    ),
  J05: ({ a, L, t, th, li, c }) =>
    [5, 10, 50].map(
      (stations) =>
        sum({
          fibre: [[(stations - 1) * L!, 'km', a!, 'dB/km']],
          pairs: [[2 * stations, c!]],
          parts: [...repeated(stations, li!), ...repeated(stations - 2, th!), t!, t!],
        }).loss,
    ),
  J07: ({ a, L, th, li, c }) =>
    [5, 10].map((stations) => {
      const farther = stations - 2;
      return sum({
        fibre: [[farther * L!, 'km', a!, 'dB/km']],
        pairs: [[2 * farther, c!]],
        parts: [...repeated(farther, li!), ...repeated(farther, th!)],
      }).loss;
    }),
  J08: ({ P, S, C, d }) => {
    const each = ratio(1, 1 - d!) + ratio(1, 1 - C!);
    return [reach(between(absolute(P!, 'mW'), S!), ratio(1, C!), each) + 1];
  },
  J13: ({ N, e, B, a }) => [reach(B!, Math.log2(N!) * e!, a!)],
};
