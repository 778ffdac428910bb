import { exactDb } from '../../../grammar/src/quantity/index.ts';
import type { PowerResult } from '../evaluate/result.ts';
import { powerLeft } from '../evaluate/thresholds.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { inDb } from './figures.ts';

/** The light with the least to spare, where nothing was put aside for repairs and ageing. */
function* find({ link, result }: LinkContext): Iterable<Found> {
  const { splices, repairs, ageing } = link.terms.reserve;
  if (splices > 0 || repairs > 0 || ageing > 0) return;
  let worst: { light: PowerResult; far: boolean } | undefined;
  const ways = result.ways.length > 0 ? result.ways : [result];
  for (const { power, length } of ways) {
    const far = (length ?? 0) > powerLeft.farFrom;
    for (const light of power) {
      const { margin } = light;
      if (margin === undefined || margin < 0n) continue;
      if (margin >= exactDb(far ? powerLeft.far : powerLeft.near)) continue;
      if (!worst || margin < worst.light.margin!) worst = { light, far };
    }
  }
  if (worst?.light.margin === undefined) return;
  const wanted = worst.far ? powerLeft.far : powerLeft.near;
  yield {
    place: worst.light.place,
    message:
      `${inDb(worst.light.margin)} of light is left from ${worst.light.from} to ${worst.light.to} (${worst.light.direction}) by design, and nothing is reserved for repairs or ageing. Kept for that is usually ${inDb(exactDb(wanted))}${worst.far ? ' outdoors' : ''}. ` +
      'Write reserve repairs or reserve ageing, or look for transceivers with a wider window.',
    details: { link: link.name, margin: Number(worst.light.margin) / 1e15 },
  };
}

export const powerMarginThin: Check = {
  name: 'power-margin-thin',
  kind: 'note',
  severity: 'note',
  title: 'Little light is left and nothing is reserved',
  explanation:
    'Cables are cut and mended, lasers age. What that will take belongs into the power budget as a reserve: splices or repairs, and ageing. Where a plan reserves nothing, what is left at the worst must do for all of it. A reserve of its own says how much is enough and ends this note.',
  source:
    'A public worked example keeps 3 dB (read); 1 dB within 2 km is common practice, no source.',
  bad: example(singleModePlan, farTransceiver, longLink.replace('30 km', '50 km')),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
