import { C } from '../../../grammar/src/vocabulary/index.ts';
import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function* find({ setup }: SetupContext): Iterable<Found> {
  const { launch } = setup;
  if (launch?.condition !== C.mandrel || launch.mandrel) return;
  yield {
    place: launch.place,
    message: `${setup.name} launches by a mandrel and does not say which. Write its diameter and turns behind it, as in launch mandrel 22 mm turns 5, so that the set-up can be built again.`,
    details: { setup: setup.name },
  };
}

const setupWith = (launch: string) =>
  multimodeSetup.replace('launch      encircled-flux', `launch      ${launch}`);

export const mandrelNotSaid: Check = {
  name: 'mandrel-not-said',
  kind: 'note',
  severity: 'note',
  title: 'A set-up launches by a mandrel and does not say its size',
  explanation:
    'The size of a mandrel goes with the core and the thickness of the cord, and changes every reading by the same little. Whoever measures again later needs the same one; and only a size that is said can be held against the cord.',
  source: 'Common practice, no source: a record names what was used to measure.',
  bad: example(
    multimodePlan,
    multimodeLink,
    setupWith('mandrel'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    setupWith('mandrel MANDREL-50 turns 5'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  setup: find,
};
