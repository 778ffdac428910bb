import { type Check, type Found, type LinkContext } from './check.ts';
import { example, singleModeLink, singleModePlan, singleModeReadings, singleModeSetup } from './examples.ts';
import { matings } from './test-cords.ts';

const ANGLED = 'APC';

function* find(context: LinkContext): Iterable<Found> {
  const said = new Set<string>();
  for (const { setup, cord, end, endType } of matings(context)) {
    const ours = cord.connectorType;
    if (!ours || !endType || said.has(`${cord.name} ${end.name}`)) continue;
    if ((ours.polish === ANGLED) === (endType.polish === ANGLED)) continue;
    said.add(`${cord.name} ${end.name}`);
    yield {
      place: cord.place,
      message:
        `The ${cord.role} cord ${cord.name} ends in ${ours.name} and meets ${endType.name}: one is angled, the other flat. ` +
        `The pair has an air gap, loses several decibels and may be damaged. Use a cord with the polish of the port.`,
      related: [{ place: end.place, message: `${context.link.name} has ${endType.name} here` }],
      details: { setup: setup.name, cord: cord.name, link: context.link.name },
    };
  }
}

export const polishMismatch: Check = {
  name: 'polish-mismatch',
  kind: 'contradiction',
  severity: 'error',
  title: 'An angled plug meets a flat one',
  explanation:
    'Angled and flat end faces do not touch: the pair loses more than 3 dB, reflects, and the end faces can be chipped. No reading through such a pair describes the link.',
  source: 'Common practice; loss of over 3 dB is stated in trade texts (read in secondary texts).',
  bad: example(
    singleModePlan,
    singleModeLink.replaceAll('connector   LC', 'connector   LC-APC'),
    singleModeSetup,
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  good: example(
    singleModePlan,
    singleModeLink.replaceAll('connector   LC', 'connector   LC-APC'),
    singleModeSetup.replaceAll(' LC OS2', ' LC-APC OS2'),
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  link: find,
};
