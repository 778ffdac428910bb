import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function* find({ setup }: SetupContext): Iterable<Found> {
  if (setup.reference !== 'one-cord' || setup.direct) return;
  if (setup.cords.some((cord) => cord.role === 'receive' || cord.role === 'tail')) return;
  yield {
    place: setup.referencePlace ?? setup.namePlace,
    message:
      `The reference of ${setup.name} was taken with one cord, and no receive cord is written. ` +
      `Without one the far pair is not in the reading and the limit would be a pair too wide. ` +
      `Write the receive cord, or one-cord direct if the far plug goes into the meter.`,
    details: { setup: setup.name },
  };
}

export const receiveCordMissing: Check = {
  name: 'receive-cord-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'A one-cord set-up says neither receive cord nor direct',
  explanation:
    'With a one-cord reference the receive cord is added after the reference, so that the far pair of the link is measured too. ' +
    'If the far plug goes straight onto the meter, the far pair is not measured and the limit must count one pair less. ' +
    'Nothing in the numbers tells the two apart, so the set-up must say which it was. Its readings are invalid until it does.',
  source:
    'Configuration A of IEC 61280-4-1 (one-cord method, receive cord added); common practice on the trap.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(/ {2}cord {8}TC-2.*\n/u, ''),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  setup: find,
};
