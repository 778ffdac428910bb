import { zeroDb } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, pad, singleModePlan } from './examples.ts';
import { inDb, microInDbm } from './figures.ts';
import {
  attenuatorFor,
  boundsInDb,
  failing,
  leftInDbm,
  lightInWords,
  uncountedInWords,
  windowDetails,
} from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  for (const [worst, ...others] of failing(result, ({ overloadMargin }) => overloadMargin)) {
    const { power } = worst;
    const { launch, input, overloadMargin, leastLoss, damageMargin } = power;
    if (!launch || !input || overloadMargin === undefined || leastLoss === undefined) continue;
    const between = attenuatorFor(result, worst);
    // Where no attenuator helps, or the receiver may be harmed, that is what is said.
    if (between && between.least > between.most) continue;
    if (damageMargin !== undefined && damageMargin <= zeroDb) continue;
    const bounds = between && boundsInDb(between.least, between.most);
    const fix = bounds
      ? `An attenuator of ${bounds[0]} to ${bounds[1]} closes the window: write it into the path as a component with its min and max.`
      : `An attenuator of at least ${inDb(-overloadMargin as typeof overloadMargin)} is needed; how much it may take is not known, because ${power.because ?? 'the greatest loss is not'}.`;
    yield {
      place: power.place,
      message:
        `${lightInWords(worst, others)}: ${microInDbm(launch.max)} sent at most and ${inDb(leastLoss)} lost at least leave up to ${leftInDbm(launch.max, leastLoss)}, ` +
        `${inDb(-overloadMargin as typeof overloadMargin)} more than the ${microInDbm(input.max)} that ${power.to} takes well. ${fix}${uncountedInWords(power.uncounted)}`,
      details: windowDetails(worst),
    };
  }
}

export const receiverOverload: Check = {
  name: 'receiver-overload',
  kind: 'note',
  severity: 'error',
  title: 'Too much power reaches the receiver',
  explanation:
    'The most that the transceiver sends, less the least that the path can lose, must not be more than the receiver takes. Joints and splices may lose next to nothing and are counted as nothing; fibre, components and splitters count with their `min`. An attenuator closes the window if it takes at least the excess and at most what the weak side can spare. Never look into a fibre or a port to see whether it is lit: the light is invisible.',
  source:
    'Both ends of the receiver’s window: ITU-T G.957 clause 8; equipment makers print the least loss as greatest launch less greatest input.',
  bad: example(singleModePlan, farTransceiver, longLink.replace('30 km', '2 km')),
  good: example(
    singleModePlan,
    farTransceiver,
    pad,
    longLink
      .replace('30 km', '2 km')
      .replace('  carries', '  component   PAD-12\n  connector   LC\n  carries'),
  ),
  link: find,
};
