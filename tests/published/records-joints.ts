/** Records of kind g: what joints lose, and readings of both directions. */
import { picometres } from '../../grammar/src/quantity/index.ts';
import { coreStepLoss, modeFieldLoss } from '../../server/src/optics/index.ts';
import { averageOfTrace } from './methods-as-plans.ts';
import { type Computed, joined, ratio } from './records-with.ts';

export const computed: Computed = {
  G01: ({ x, y }) => [averageOfTrace(x!, y!)],
  G04: ({ a1, a2, V }) => {
    const [one, two] = [spot(a1!, V!), spot(a2!, V!)];
    return [one, two, modeFieldLoss(one, two) / 1e6];
  },
  G05: ({ a, V, d, th, n2, lam }) => {
    const field = a! * (0.65 + 1.619 * V! ** -1.5 + 2.879 * V! ** -6);
    const tilt = (Math.PI * n2! * field * th!) / 57.3 / lam!;
    return [field, ...[d! / field, tilt].map((off) => joined(ratio(1, Math.exp(-(off ** 2)))))];
  },
  G07: ({ a, V, NA, n1, y, th }) => {
    const field = spot(a!, V!);
    const tilt = (((th! * Math.PI) / 180) * field * n1! * V!) / (a! * NA!);
    // 2.17 is half the decibels of a neper, as the source rounds it.
    const [lateral, angular] = [2.17 * (y! / field) ** 2, 2.17 * tilt ** 2];
    return [field, joined(lateral), joined(angular), joined(lateral, angular)];
  },
  G08: ({ d, w1, w2 }) => [w1!, w2!].map((field) => joined(4.34 * (d! / field) ** 2)),
  G10: ({ d1, d2, A1, A2, g1, g2 }) => [
    coreStepLoss(
      { core: picometres(d1! * 1e6), aperture: A1! },
      { core: picometres(d2! * 1e6), aperture: A2! },
    ) / 1e6,
    ratio(1 + 2 / g2!, 1 + 2 / g1!),
  ],

  G11: ({ d1, d2 }) => [modeFieldLoss(d1!, d2!) / 1e6],
};

/** Spot size of a single-mode fibre by its core's radius and normalised frequency: a fit of textbooks, to the field's 1/√e. */
function spot(radius: number, frequency: number): number {
  return (radius * (0.65 + 1.62 * frequency ** -1.5 + 2.88 * frequency ** -6)) / Math.SQRT2;
}
