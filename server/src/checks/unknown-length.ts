import { elementsIn } from '../model/ways.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  for (const element of elementsIn(link)) {
    if (element.kind !== 'segment' || !element.deliberate) continue;
    yield {
      place: element.place,
      message:
        `The length of this ${element.fibreName} is unknown and counts as none: the limit is stricter for it, and the reach of an application cannot be said. ` +
        `Write the length once it is known, or silence this with a reason.`,
      details: { link: link.name, fibre: element.fibreName },
    };
  }
}

export const unknownLength: Check = {
  name: 'unknown-length',
  kind: 'doubt',
  severity: 'warning',
  title: 'A length is unknown on purpose',
  explanation:
    'Where a length cannot be found out, it may be taken as none: the limit then grants the fibre nothing and is the strictest there is. That has to be deliberate, so it is said. No application is supported over a length that nobody knows.',
  source:
    'MIL-STD-2042-6 (the length may be taken as zero where it is not known), read in a secondary copy.',
  bad: example(multimodePlan, multimodeLink.replace('180 m', 'unknown')),
  good: example(multimodePlan, multimodeLink),
  link: find,
};
