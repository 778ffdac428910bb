/** Records of kinds h, i and l: bandwidth, dispersion, delay. */
import { picometres } from '../../grammar/src/quantity/index.ts';
import { inGlass } from '../../server/src/evaluate/stations.ts';
import {
  dispersionAlong,
  dispersionAt,
  longestByDispersion,
  pulseLength,
  skewOf,
} from '../../server/src/optics/index.ts';
import {
  absolute,
  type Computed,
  dispersed,
  km,
  late,
  micro,
  rss,
  sum,
  word,
} from './records-with.ts';
import { applicationLoss, signalAnswer } from './signal-as-plans.ts';
import { windowAnswer } from './windows-as-plans.ts';

export const computed: Computed = {
  H01: ({ p1, p2, L, n }) => {
    const left = [p1!, p2!].map((product) => signalAnswer([{ km: L!, bandwidth: product }]).MHz);
    return [...left, ...left.map((bandwidth) => word(bandwidth >= n!))];
  },
  H02: ({ L2, L3, b2, b3 }) => {
    const { MHz } = signalAnswer([
      { km: L2! / 1000, bandwidth: b2! },
      { km: L3! / 1000, bandwidth: b3! },
    ]);
    return [(1000 * b3!) / MHz];
  },
  H04: ({ to, ti, L }) => {
    const broadening = Math.sqrt(to! ** 2 - ti! ** 2);
    // The law the source inverts: squares of the pulse sent and of its broadening make the one that comes.
    if (Math.abs(rss([broadening, ti!]) - to!) > 1e-5) return [];
    return [broadening / L!, 440 / (broadening / L!)];
  },
  H05: ({ T, L }) => {
    const product = Number(((0.529 / T!) * L!).toFixed(3));
    return [signalAnswer([{ km: L!, bandwidth: product }]).MHz, (1000 * T!) / L!, product];
  },
  H07: ({ n1, n2, d, c }) => {
    const broadening = 1000 * late(n1!, (n1! * d!) / n2!, c! / 1000);
    return [broadening, 1000 / broadening];
  },
  H08: ({ t1, t2, t3, t4 }) => [rss([t1!, t2!, t3!, t4!])],
  H10: () =>
    (
      [
        ['OM1', 300, 'FC-100-MX-SN'],
        ['OM1', 150, 'FC-200-MX-SN'],
        ['OM1', 70, 'FC-400-MX-SN'],
        ['OM1', 21, 'FC-800-MX-SN'],
        ['OM2', 500, 'FC-100-MX-SN'],
        ['OM2', 300, 'FC-200-MX-SN'],
        ['OM2', 150, 'FC-400-MX-SN'],
        ['OM2', 50, 'FC-800-MX-SN'],
        ['OM2', 35, 'FC-1600-MX-SN'],
        ['OM2', 20, 'FC-3200-MX-SN'],
        ['OM3', 860, 'FC-100-MX-SN'],
        ['OM3', 500, 'FC-200-MX-SN'],
        ['OM3', 380, 'FC-400-MX-SN'],
        ['OM3', 150, 'FC-800-MX-SN'],
        ['OM3', 100, 'FC-1600-MX-SN'],
        ['OM3', 70, 'FC-3200-MX-SN'],
        ['OM4', 400, 'FC-400-MX-SN'],
        ['OM4', 190, 'FC-800-MX-SN'],
        ['OM4', 125, 'FC-1600-MX-SN'],
        ['OM4', 100, 'FC-3200-MX-SN'],
      ] as const
    ).map(([fibre, metres, application]) => applicationLoss(application, fibre, metres)),

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

  I02: ({ e, B, w, D }) => {
    const bears = e! / (B! * 1e-6 * w!);
    return [bears, dispersed(bears, D!)];
  },
  I04: ({ B, D, w }) => [dispersed(1000 / (B! * w!), D!)],
  I05: ({ L, D, w }) => [1000 / (signalAnswer([{ km: L!, dispersion: D! }]).dispersion * w!)],
  I07: ({ D, L }) => [Math.sqrt(1e5 / signalAnswer([{ km: L!, dispersion: D! }]).dispersion)],
  I08: ({ S, l0, l1, L, lim }) => [lim! - dispersionAlong(micro(S! * (l1! - l0!)), km(L!)) / 1e6],
  I10: ({ L, b1, b2, a1, a2, s, P }) => {
    const compensator = dispersed(b1! * L!, b2!);
    const { loss } = sum({
      fibre: [
        [L!, 'km', a1!, 'dB/km'],
        [compensator, 'km', a2!, 'dB/km'],
      ],
      splices: [[1, s!]],
    });
    return [compensator, loss, absolute(P!, 'mW') - loss];
  },

  L01: ({ L1, L2, L3, L4, L5, v1, v2, d1, d2, d3, d4, lim }) => {
    // The source states delays of a kilometre; the index that makes them is theirs times c.
    const stretch = (metres: number, delay: number) => ({
      km: metres / 1000,
      index: (delay * 299_792.458) / 1e6,
    });
    const all = [
      stretch(L1!, v1!),
      stretch(L2!, v1!),
      stretch(L3!, v2!),
      stretch(L4!, v2!),
      stretch(L5!, v1!),
    ];
    const total = signalAnswer(all).microseconds + d1! + d2! + d3! + d4!;
    return [...all.map((one) => signalAnswer([one]).microseconds), total, word(total <= lim!)];
  },
  L02: ({ n1, n2, m1, c }) =>
    [n1!, m1!].flatMap((core) => [late(core, 1, c!), late(core, core / n2!, c!)]),
  L04: ({ t, L, w }) => {
    const allowed = (t! * 1000) / L!;
    return [allowed, word((skewOf([0, w! * L!]) ?? Number.NaN) <= allowed * L!)];
  },
  L05: ({ t, c, L1, L2 }) => {
    // Twice the time, since a pulse on a trace goes there and back; index 1.5 of the source.
    const apart = (pulseLength(2000 * t!, 1.5) / 1e6) * (c! / 299_792_458);
    return [apart, (100 * apart) / L1!, (100 * apart) / L2!];
  },
  L07: ({ n, d, L, c }) => [1000 * late(n!, L! * d!, c! / 1000)],
  L08: ({ t, n, m }) => {
    const shown = pulseLength(1e6 * t!, m!);
    const glass = inGlass(shown, { set: m!, glass: n! });
    return [glass / 1e9, shown / 1e9, 100 * (shown / glass - 1)];
  },
};
