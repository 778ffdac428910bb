import { subtractDb, zeroDb } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import {
  attenuatorFor,
  boundsInDb,
  failing,
  type Lit,
  lightInWords,
  uncountedInWords,
  windowDetails,
} from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  for (const [worst, ...others] of failing(result, ({ overloadMargin }) => overloadMargin)) {
    const impossible = [worst, ...others].find((lit) => {
      const between = attenuatorFor(result, lit);
      return between && between.least > between.most;
    });
    const between = impossible && attenuatorFor(result, impossible);
    if (!impossible || !between) continue;
    yield {
      place: impossible.power.place,
      message:
        `${lightInWords(impossible, [worst, ...others])}: no attenuator closes the window. ${between.shared.map(needs).join('; ')}. ` +
        `Look for transceivers with a wider window or less power, ${between.shared.length > 1 ? 'other ones for each direction, or no way round past this node' : 'or a path that varies less'}.${uncountedInWords(impossible.power.uncounted)}`,
      details: {
        ...windowDetails(impossible),
        least: Number(between.least) / 1e15,
        most: Number(between.most) / 1e15,
      },
    };
  }
}

/** `Lighthouse to Breakwater needs 9.49 dB at least and bears 16.95 dB at most`. */
function needs({ power, way }: Lit): string {
  const { margin, overloadMargin } = power;
  const who = way ?? 'The path';
  const excess =
    overloadMargin === undefined || overloadMargin > zeroDb
      ? zeroDb
      : subtractDb(zeroDb, overloadMargin);
  const [least, most] = boundsInDb(excess, margin ?? zeroDb);
  return margin === undefined || margin < zeroDb
    ? `${who} needs ${least} at least and can spare none`
    : `${who} needs ${least} at least and bears ${most} at most`;
}

export const attenuatorImpossible: Check = {
  name: 'attenuator-impossible',
  kind: 'note',
  severity: 'error',
  title: 'Light is too strong, and no attenuator would leave enough of it',
  explanation:
    'A fixed attenuator takes the same from strong light and from weak. It must take at least what is too much and at most what the weak side can spare, on every way that the same two transceivers may ride: in a ring on the short way and on the long one. Where these intervals do not meet, no attenuator serves; the answer is other transceivers, one kind per direction, or no way round.',
  source:
    'Intersection of both ends of the window over all paths: arithmetic on ITU-T G.957 clause 8.',
  bad: example(
    singleModePlan,
    farTransceiver.replace('max -7 dBm', 'max -20 dBm'),
    longLink.replace('30 km', '45 km'),
  ),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
