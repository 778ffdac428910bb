import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import {
  attenuatorFor,
  boundsInDb,
  failing,
  leftInDbm,
  lightInWords,
  windowDetails,
} from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  // From that power on it may be harmed: equal is too much.
  const over = failing(result, ({ damageMargin }) =>
    damageMargin === undefined
      ? undefined
      : damageMargin - 1n < 0n
        ? -1 - Number(-damageMargin)
        : 1,
  );
  for (const [worst, ...others] of over) {
    const { power } = worst;
    if (!power.launch || power.leastLoss === undefined || power.damageMargin === undefined)
      continue;
    const between = attenuatorFor(result, worst);
    const fix =
      between && between.least <= between.most
        ? `${boundsInDb(between.least, between.most).join(' to ')} of attenuation bring it into the window`
        : 'No attenuator brings all of its light into the window';
    yield {
      place: power.place,
      message:
        `${lightInWords(worst, others)}: up to ${leftInDbm(power.launch.max, power.leastLoss)} arrive, and ${power.to} may be harmed from ` +
        `${leftInDbm(power.launch.max, (power.leastLoss - power.damageMargin) as typeof power.leastLoss)} on. ${fix}; connect nothing before it is in place.`,
      details: windowDetails(worst),
    };
  }
}

export const receiverDamage: Check = {
  name: 'receiver-damage',
  kind: 'note',
  severity: 'error',
  title: 'The receiver may be harmed by the light',
  explanation:
    'Above its window a receiver makes errors; from its `damage` power on it may be destroyed the moment the plug goes in. A transceiver made for a long path, patched over a short one on a bench, is the usual way to do it. Put the attenuator in first, and measure the power with a meter before the receiver sees it. Never look into a fibre or a port.',
  source:
    'Makers’ data sheets state the power from which a receiver may be harmed; the comparison is arithmetic.',
  bad: example(
    singleModePlan,
    farTransceiver.replace('  penalty', '  damage      3 dBm\n  penalty'),
    longLink.replace('30 km', '200 m'),
  ),
  good: example(
    singleModePlan,
    farTransceiver.replace('  penalty', '  damage      5 dBm\n  penalty'),
    longLink,
  ),
  link: find,
};
