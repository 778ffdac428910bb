import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function* find({ setup }: SetupContext): Iterable<Found> {
  const launch = setup.cords.find((cord) => cord.role === 'launch');
  if (setup.launch || launch?.fibreType?.mode !== 'multimode') return;
  yield {
    place: setup.namePlace,
    message:
      `${setup.name} measures multimode fibre and does not say how the light was launched. ` +
      `Write launch encircled-flux, mandrel, over-filled or as-found.`,
    details: { setup: setup.name },
  };
}

export const launchConditionMissing: Check = {
  name: 'launch-condition-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'A multimode set-up does not say how the light was launched',
  explanation:
    'In multimode fibre the loss that is read depends on how the core is filled: an over-filled launch reads high, an under-filled one low, most of all on links with many connections. ' +
    'Two honest testers differ when their launches differ, so the acceptance record must name it.',
  source: 'IEC 61280-4-1 (encircled flux at the launch cord’s output).',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(/ {2}launch .*\n/u, ''),
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
