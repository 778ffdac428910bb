import {
  type Check,
  doubtsNamed,
  type Found,
  type LinkContext,
  type SetupContext,
} from './check.ts';
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

/** That a set-up has no receive cord is told of it once; that an object needs one, of the object's readings. */
function* findSocket(context: LinkContext): Iterable<Found> {
  const { name } = context.link;
  for (const { place, related, details } of doubtsNamed(context, 'receive-cord-missing')) {
    const { setup, end } = details;
    if (end === undefined) continue;
    yield {
      place,
      ...(related && { related }),
      message: `${setup} says that the far plug goes into the meter, and ${name} ends in a socket at ${end}: there is no plug to put in. Say which receive cord was used, in a set-up without direct, or write the path as it ends.`,
      details,
    };
  }
}

export const receiveCordMissing: Check = {
  name: 'receive-cord-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'A one-cord set-up says neither receive cord nor direct',
  explanation:
    'With a one-cord reference the receive cord is added after the reference, so that the far pair of the link is measured too. ' +
    'If the far plug goes straight onto the meter, the far pair is not measured and the limit must count one pair less. ' +
    'Nothing in the numbers tells the two apart, so the set-up must say which it was. Its readings are invalid until it does, and so are those without receive cord of what ends in a socket there.',
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
  link: findSocket,
};
