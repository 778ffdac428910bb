/**
 * Worked examples that others published, computed through the language where a
 * plan can say them, else by the functions of `optics` and `quantity`. Each is
 * compared with the value recomputed from the source's own inputs, within the
 * record's tolerance; where a source slipped, its printed figure is not the
 * measure. Source, place in it and how it was read stand in `records.json` and
 * in the name of each test.
 */
import { describe, expect, it } from 'vitest';
import {
  exactDb,
  findUnit,
  lossFromPowers,
  microDb,
  microDbm,
  micrometres,
  picometres,
  powerFromWatts,
  ratePerKm,
  readDecimal,
} from '../../grammar/src/quantity/index.ts';
import {
  dispersionAt,
  idealSplit,
  longestByDispersion,
  longestFibre,
  lossOfRatio,
  microwatts,
  modeFieldLoss,
  rateOver,
  rootSumSquares,
  shareLeft,
  surfaceLoss,
} from '../../server/src/optics/index.ts';
import { at, doubt, exact, judged, reading } from './judged.ts';
import book from './records.json' with { type: 'json' };
import { expectedLoss, lossAndMargin, losses, type PublishedSum, read } from './sums-as-plans.ts';
import { windowAnswer } from './windows-as-plans.ts';

type Answers = readonly (number | string | undefined)[];
type Inputs = Readonly<Record<string, number>>;

const micro = (value: number) => Math.round(value * 1e6);
const dB = (value: number) => microDb(micro(value));
const dBm = (value: number) => microDbm(micro(value));
/** Decibels between two powers in dBm. */
const between = (high: number, low: number) => lossFromPowers(dBm(high), dBm(low)) / 1e6;
/** Kilometres that fit. */
const reach = (budget: number, fixed: number, rate: number) =>
  (longestFibre(exactDb(dB(budget)), exactDb(dB(fixed)), ratePerKm(micro(rate))) ?? 0) / 1e9;
const km = (value: number) => micrometres(Math.round(value * 1e9));
/** dBm of a written power. */
const absolute = (digits: number, unit: string) => {
  const decimal = readDecimal(String(digits));
  const known = findUnit(unit);
  const power = decimal && known && powerFromWatts(decimal, known);
  return power === undefined ? Number.NaN : power / 1e6;
};
const ratio = (powerIn: number, powerOut: number) =>
  (lossOfRatio(powerIn, powerOut) ?? Number.NaN) / 1e6;
const rate = (loss: number, length: number) =>
  (rateOver(exactDb(dB(loss)), km(length)) ?? Number.NaN) / 1e6;
const rss = (values: readonly number[]) => rootSumSquares(values.map(dB)) / 1e6;
const repeated = (count: number, value: number) => Array.from({ length: count }, () => value);
const sum = (terms: PublishedSum) => lossAndMargin(terms);
const word = (good: boolean) => (good ? 'PASS' : 'FAIL');

const computed: Readonly<Record<string, (i: Inputs) => Answers>> = {
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

  G11: ({ d1, d2 }) => [modeFieldLoss(d1!, d2!) / 1e6],

  I01: ({ D, L, w }) => {
    const { dispersion } = windowAnswer({ launch: [0, 0], input: [-30, 0], fibre: [L!, D!] });
    return [dispersion, dispersion * w!];
  },
  I11: ({ S0, l0, m, p }) => {
    const at = (nm: number) =>
      dispersionAt(picometres(nm * 1000), picometres(l0! * 1000), micro(S0!)) / 1e6;
    return [at(1280), at(1550), at(1550) - (m! + p!)];
  },
  I13: ({ t1, t2, t3, D1, D2 }) =>
    [
      [t1!, D1!],
      [t2!, D1!],
      [t2!, D2!],
      [t3!, D1!],
    ].map(([bears, rate]) => (longestByDispersion(micro(bears!), micro(rate!)) ?? 0) / 1e9),
  I14: ({ L, D }) => [
    windowAnswer({ launch: [0, 0], input: [-30, 0], fibre: [L!, D!] }).dispersion,
  ],

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
    const words: Readonly<Record<string, string>> = {
      pass: 'PASS',
      'marginal-pass': 'CONDITIONAL PASS',
      'marginal-fail': 'CONDITIONAL FAIL',
      fail: 'FAIL',
    };
    return [1, 2, 3, 4].map((fibre) => words[reading(result, fibre, 1310).verdict]);
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

const { records } = book;

describe('published records', () => {
  it('are at least forty, each with its source', () => {
    expect(records.length).toBeGreaterThanOrEqual(40);
    for (const { source, provenance } of records) {
      expect(source.title).not.toBe('');
      expect(provenance).not.toBe('');
    }
  });

  it.each(
    records.map((record) => {
      const { title, publisher, locator } = record.source as Record<string, string>;
      return [
        record.id,
        record.title,
        [title, publisher, locator].filter(Boolean).join('; '),
        record,
      ] as const;
    }),
  )('%s %s (%s)', (id, _title, _source, record) => {
    const compute = computed[id];
    expect(compute, `no computation for ${id}`).toBeDefined();
    const answers = compute?.(record.inputs as unknown as Inputs) ?? [];
    expect(answers.length).toBe(record.outputs.length);
    for (const [index, output] of record.outputs.entries()) {
      const answer = answers[index];
      if (typeof output.expected === 'string') expect(answer, output.name).toBe(output.expected);
      else {
        // One micro-unit is how finely powers and roots are held.
        const tolerance = Math.max(Number(output.tool_tolerance), 1.1e-6);
        expect(Math.abs(Number(answer) - output.expected), output.name).toBeLessThanOrEqual(
          tolerance,
        );
        const printed = 'stated' in output ? Number(output.stated) : output.expected;
        const allowed = Number(output.tolerance);
        if (record.publishedSlip && Math.abs(printed - output.expected) > allowed) {
          expect(Math.abs(Number(answer) - printed), 'a printed slip').toBeGreaterThan(allowed);
        }
      }
    }
  });
});
