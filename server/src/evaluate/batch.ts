/** What a contract asks of a batch and not of one reading: a mean, or a share within a loss. */
import type { MicroDb, Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Context } from './context.ts';
import { db, nm } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Settled } from './settle.ts';

/** Requirements on the batch that its standing readings do not meet. Means compare sums; shares compare counts. */
export function* doubtsOfBatch(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
): Iterable<Doubt> {
  for (const required of context.link.terms.require) {
    if (required.kind !== 'loss' || required.statistic === undefined) continue;
    const { statistic, loss: limit, wavelength } = required;
    for (const [at, losses] of lossesByWavelength(settled, wavelength)) {
      const within = losses.filter((loss) => loss <= limit).length;
      const sum = losses.reduce<number>((total, loss) => total + loss, 0);
      const met =
        statistic === 'mean'
          ? sum <= limit * losses.length
          : within * 1_000_000 >= statistic * losses.length;
      if (met) continue;
      yield {
        name: 'batch-over-limit',
        place: required.place,
        details: {
          wavelength: nm(at),
          limit: db(limit),
          readings: losses.length,
          within,
          mean: db(Math.round(sum / losses.length)),
          wanted: statistic === 'mean' ? 'mean' : `${statistic / 10_000} %`,
        },
      };
    }
  }
}

function lossesByWavelength(
  settled: ReadonlyMap<string, Settled>,
  only: Picometres | undefined,
): ReadonlyMap<Picometres, MicroDb[]> {
  const losses = new Map<Picometres, MicroDb[]>();
  for (const { current } of settled.values()) {
    if (!current?.valid || current.result.loss === undefined) continue;
    const { wavelength } = current.measurement.cell;
    if (only !== undefined && wavelength !== only) continue;
    const known = losses.get(wavelength);
    if (known) known.push(current.result.loss);
    else losses.set(wavelength, [current.result.loss]);
  }
  return losses;
}
