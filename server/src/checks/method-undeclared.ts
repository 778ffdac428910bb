import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function* find({ setup }: SetupContext): Iterable<Found> {
  if (setup.reference) return;
  if (
    !setup.events.some((event) => event.kind === 'taken') ||
    !setup.cords.some((cord) => cord.role === 'launch')
  )
    return;
  yield {
    place: setup.namePlace,
    message:
      `${setup.name} has references and a launch cord, but does not say with how many cords they were taken. ` +
      `Its losses cannot be judged. Write reference one-cord, two-cord or three-cord.`,
    details: { setup: setup.name },
  };
}

export const methodUndeclared: Check = {
  name: 'method-undeclared',
  kind: 'contradiction',
  severity: 'error',
  title: 'A set-up does not say how its reference was taken',
  explanation:
    'How many of the end pairs a reading holds depends on the number of cords in the reference. ' +
    'The same reading may pass by one method and fail by another, so a reading without its method says nothing. ' +
    'Only cord counts are understood: letters for methods contradict each other between the standards.',
  source:
    'IEC 61280-4-1 and IEC 61280-4-2 (configurations and methods); any method is permitted if it is reported with the data.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(/ {2}reference .*\n/u, ''),
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
