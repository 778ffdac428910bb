import { type Check, type Found, type LinkContext, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

const each = noticed(
  'fibre-not-in-plan',
  (d) =>
    `${d.text('object')} has fibres ${d.text('has')}, and this reading is of fibre ${d.text('fibre')}. It is kept and listed, and nothing asked for it. Look at the number, or at the link the row belongs to.`,
);

/** Once for a fibre in a block, however many columns it has: the number is one mistake. */
function* find(context: LinkContext): Iterable<Found> {
  const told = new Set<string>();
  for (const found of each(context)) {
    const key = `${found.place.block} ${found.details?.fibre}`;
    if (told.has(key)) continue;
    told.add(key);
    yield found;
  }
}

export const fibreNotInPlan: Check = {
  name: 'fibre-not-in-plan',
  kind: 'doubt',
  severity: 'warning',
  title: 'A reading of a fibre that the link does not have',
  explanation:
    'Fibres of a link are named by their numbers there. A reading of another number is kept and listed, outside what is asked of the link. Most often numbering ran on past the last fibre, or the row belongs to the next link.',
  source: 'Common practice, no source: readings that nothing asked for are shown, never dropped.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80', '3  1.10  0.82'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: find,
};
