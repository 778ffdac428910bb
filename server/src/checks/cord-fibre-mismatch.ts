import { type Check, type Found, type LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeReadings, multimodeSetup } from './examples.ts';
import { inMicrons } from './figures.ts';
import { matings } from './test-cords.ts';

function* find(context: LinkContext): Iterable<Found> {
  const said = new Set<string>();
  for (const { setup, cord, fibre, end } of matings(context)) {
    const theirs = fibre?.fibre;
    const ours = cord.fibreType;
    if (!theirs || !ours || said.has(cord.name)) continue;
    const modes = ours.mode !== theirs.mode;
    if (!modes && (ours.core === theirs.core || !ours.core || !theirs.core)) continue;
    said.add(cord.name);
    const what = modes
      ? `is ${ours.mode} and the link's ${theirs.name} is ${theirs.mode}`
      : `has a core of ${inMicrons(ours.core ?? theirs.core!)} and the link's ${theirs.name} ${inMicrons(theirs.core!)}`;
    yield {
      place: cord.place,
      message:
        `The ${cord.role} cord ${cord.name} ${what}, and ${context.link.name} was measured with it. ` +
        `Those readings are invalid: the step adds loss in one direction only. Measure again with cords of the link's own fibre.`,
      related: [{ place: end.place, message: `${context.link.name} ends here` }],
      details: { setup: setup.name, cord: cord.name, link: context.link.name },
    };
  }
}

export const cordFibreMismatch: Check = {
  name: 'cord-fibre-mismatch',
  kind: 'contradiction',
  severity: 'error',
  title: 'A test cord has another fibre than the link it measured',
  explanation:
    'A 62.5 µm launch cord into a 50 µm link loses extra light at the first joint and nothing the other way; a single-mode cord on a multimode link says nothing about it at all. ' +
    'The readings do not describe the link.',
  source: 'IEC 61280-4-1 and 61280-4-2 ask for test cords of the fibre under test.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('TC-1 launch LC OM4', 'TC-1 launch LC OM1'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(multimodePlan, multimodeLink, multimodeSetup, multimodeReadings('1  1.12  0.84', '2  1.08  0.80')),
  link: find,
};
