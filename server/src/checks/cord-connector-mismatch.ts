import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { matings } from './test-cords.ts';

/** The plug family without its polish: `LC` of `LC-APC`. Polish has a finding of its own. */
function family(name: string): string {
  return name.replace(/-(?:PC|UPC|APC)$/u, '');
}

function* find(context: LinkContext): Iterable<Found> {
  const ends = [...matings(context)];
  const said = new Set<string>();
  for (const { setup, cord, end } of ends) {
    if (said.has(cord.name)) continue;
    const meets = ends.filter((other) => other.cord === cord);
    if (meets.some((other) => family(other.end.name) === family(cord.connector))) continue;
    said.add(cord.name);
    yield {
      place: cord.place,
      message:
        `The ${cord.role} cord ${cord.name} ends in ${cord.connector}, and ${context.link.name} ends in ${end.name}. ` +
        `The two do not mate. Write the plug that meets the link, or look whether these readings are of another link.`,
      related: [{ place: end.place, message: `${context.link.name} has ${end.name} here` }],
      details: { setup: setup.name, cord: cord.name, link: context.link.name },
    };
  }
}

export const cordConnectorMismatch: Check = {
  name: 'cord-connector-mismatch',
  kind: 'doubt',
  severity: 'warning',
  title: 'A test cord’s plug does not fit the link it measured',
  explanation:
    'A cord’s plug that is written is the one that mates with the link. If it fits neither end of the link, either the set-up or the link is written wrongly, or the readings belong to another link.',
  source: 'Common practice, no source.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('TC-1 launch LC', 'TC-1 launch SC'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: find,
};
