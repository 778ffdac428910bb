/** A power that no light in a fibre has, or that no meter sees: an impossible value, most often in another unit. */
import { type MicroDbm, microDbm } from '../../../grammar/src/quantity/index.ts';
import { db, inDbm, type Reason, reason } from './reasons.ts';

/**
 * Light of more than 10 W is in no fibre that is tested, and less than 0.01 pW
 * no power meter shows. Common practice, no source; the bounds are ours.
 */
const least: MicroDbm = microDbm(-110_000_000);
const most: MicroDbm = microDbm(40_000_000);

export function impossiblePower(power: MicroDbm | undefined): Reason | undefined {
  if (power === undefined || (power >= least && power <= most)) return undefined;
  const because = `${inDbm(power)} is no power that is measured in a fibre`;
  return reason('unit-suspect', because, { power: db(power), least: db(least), most: db(most) });
}
