/** Records of kinds k and m: statistics, and verdicts with their decision rules. */
import { at, doubt, exact, judged, reading } from './judged.ts';
import {
  between,
  type Computed,
  dispersed,
  type Inputs,
  rate,
  ratio,
  repeated,
  rss,
  sum,
  word,
} from './records-with.ts';
import { expectedLoss, read } from './sums-as-plans.ts';

/** Verdicts in the words of the records. */
const fourWay: Readonly<Record<string, string>> = {
  pass: 'PASS',
  'marginal-pass': 'CONDITIONAL PASS',
  'marginal-fail': 'CONDITIONAL FAIL',
  fail: 'FAIL',
};

export const computed: Computed = {
  K01: ({ nc, lc, ns, ls, Lj, aj, Lt, at: trunk, vc, vs, v0, x }) => {
    const mean = expectedLoss({
      fibre: [
        [Lj!, 'km', aj!, 'dB/km'],
        [Lt!, 'km', trunk!, 'dB/km'],
      ],
      pairs: [[nc!, lc!]],
      splices: [[ns!, ls!]],
    });
    const sigma = rss([
      ...repeated(nc!, Math.sqrt(vc!)),
      ...repeated(ns!, Math.sqrt(vs!)),
      Math.sqrt(v0!),
    ]);
    const connections = expectedLoss({ pairs: [[nc!, lc!]] });
    return [connections, mean, nc! * vc! + ns! * vs!, sigma, 3 * sigma, mean + 3 * sigma + x!];
  },
  K04: ({ mt, st, mr, sr, L, mc, nc, lc, sc, ns, ls, ss, md, mcr, scr }) => {
    const terms = {
      fibre: [[L!, 'km', mc!, 'dB/km']] as const,
      pairs: [[nc!, lc!]] as const,
      splices: [[ns!, ls!]] as const,
      parts: [md!, mcr!],
    };
    const mean = sum({ ...terms, budget: between(mt!, mr!) }).margin;
    const sigma = rss([st!, sr!, ...repeated(nc!, sc!), ...repeated(ns!, ss!), scr!]);
    return [mean, sigma, Number(mean.toFixed(1)) - 2 * sigma - 1, mean - 2 * sigma - 1];
  },
  K07: ({ ua, ub }) => [rss([ua!, ub!]), 2 * rss([ua!, ub!])],
  K08: ({ m, s1, s2, s3, s4, k }) => [
    m! + k! * rss([s1!, s2!, s3!, s4!]),
    m! + k! * (s1! + s2! + s3! + s4!),
  ],

  K02: ({ mt, st, mr, sr, L, mc, nc, lc, sc, ns, ls, md, sd, sh, mcr, scr, e, B, w, D }) => {
    const bears = e! / (B! * 1e-6 * w!);
    const { margin } = sum({
      fibre: [[L!, 'km', mc!, 'dB/km']],
      pairs: [[nc!, lc!]],
      splices: [[ns!, ls!]],
      parts: [md!, mcr!],
      budget: between(mt!, mr!),
    });
    const sigma = rss([st!, sr!, ...repeated(nc!, sc!), sd! * sh!, scr!]);
    return [bears, dispersed(bears, D!), margin, sigma];
  },

  M01: ({ L, a, c, n, s, T, S, m }) => {
    const budget = between(T!, S!);
    const { loss, margin } = sum({
      fibre: [[L!, 'km', a!, 'dB/km']],
      splices: [[n!, s!]],
      parts: [c!],
      budget,
    });
    return [loss, budget, margin, word(margin >= m!)];
  },
  M02: ({ L, a, n, s, T, S, m }) => {
    const budget = between(T!, S!);
    const { loss, margin } = sum({ fibre: [[L!, 'km', a!, 'dB/km']], splices: [[n!, s!]], budget });
    return [loss, budget, margin, word(margin >= m!)];
  },
  M04: ({ L, a, b, lim }) => {
    const fibre = [[L!, 'km', a!, 'dB/km']] as const;
    const with_ = (count: number) => sum({ fibre, parts: repeated(count, b!), budget: lim });
    let fit = 0;
    while (with_(fit + 1).margin >= 0) fit++;
    return [sum({ fibre }).loss, fit, with_(fit).loss, word(with_(fit + 1).margin >= 0)];
  },
  M05: ({ B, x, y }) => {
    const { margin } = sum({ parts: [x!, y!], budget: B });
    return [margin, word(margin > 0)];
  },
  M07: ({ M, L, a, c, n, s, x }) => {
    const fibre = [[L!, 'km', a!, 'dB/km']] as const;
    const { loss, margin } = sum({ fibre, splices: [[n!, s!]], parts: [c!, x!], budget: M });
    return [sum({ fibre }).loss, sum({ splices: [[n!, s!]] }).loss, loss, margin, word(margin > 0)];
  },
  M08: (i) => {
    const result = shipLink(i);
    const action = (fibre: number) => {
      if (reading(result, fibre, 850).verdict === 'pass') return 'ACCEPT';
      return doubt(result, 'over-limit', fibre).action === 'reject' ? 'REJECT' : 'RETEST';
    };
    return [Number(exact(at(result, 850).governing?.value)), action(1), action(2), action(3)];
  },
  M10: ({ TL, w, x1, x2, x3, x4 }) => {
    const result = read(
      { budget: TL },
      '-10 dBm',
      'loss in dB',
      [x1!, x2!, x3!, x4!],
      `  uncertainty ${w} dB\n`,
    );
    return [1, 2, 3, 4].map((fibre) => fourWay[reading(result, fibre, 1310).verdict]);
  },

  M11: ({ v2, v1, L1, L2, w, TL }) => {
    const measured = rate(ratio(v2!, v1!), L1! - L2!);
    const uncertainty = `  uncertainty ${w} dB\n`;
    const result = read({ budget: TL! }, '-10 dBm', 'loss in dB', [measured], uncertainty);
    return [measured, fourWay[reading(result, 1, 1310).verdict]];
  },
};

/** The link of the ship record, by the library's limits of the standard it is about. */
function shipLink({ L, x1, x2, x3 }: Inputs) {
  return judged(`plan "Ship" {
  limits      MIL-STD-2042-6
  measure     850 nm
  directions  A>B
  reference   one-cord
  decision    simple
}

setup SHIP {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch LC OM1 ordinary
  cord        R1 receive LC OM1 ordinary verified 0.3 dB
  taken       2026-01-10 08:00 850 nm -20 dBm
}

link SHIP-1 {
  fibres      1..3
  connector   LC
  segment     ${L} km OM1
  connector   LC
}

readings SHIP-1 {
  setup       SHIP
  tested      2026-01-10 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1  ${x1}
  2  ${x2}
  3  ${x3}
}
`).link('SHIP-1');
}
