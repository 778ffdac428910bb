import { livingOf } from '../evaluate/living.ts';
import { isTree } from '../model/ways.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';
import { fibresInWords } from './figures.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  for (const carried of link.terms.carries) {
    if (!carried.application) continue;
    const { count } = carried.application;
    // To each end of a tree leads one fibre, however many ends there are.
    const fibres = isTree(link) ? link.fibres.slice(0, 1) : livingOf(carried, link);
    const given = fibres.length;
    // One that does not say how many fibres it has is asked for that instead.
    if (link.fibres.length === 0 || given >= count) continue;
    yield {
      place: carried.place,
      message:
        `${carried.name} needs ${count} fibres and has ${isTree(link) ? 'one to each end' : given === 0 ? 'none that is not dead' : `${given} here (${fibresInWords(fibres)})`}. ` +
        `Give it ${count} fibres, or another application.`,
      details: { link: link.name, needed: count, given },
    };
  }
}

const link = (fibres: string) => `link KQ-1 {
  fibres      ${fibres}
  connector   LC
  segment     60 m OM4
  connector   LC
  carries     10GBASE-SR
}
`;

export const tooFewFibres: Check = {
  name: 'too-few-fibres',
  kind: 'doubt',
  severity: 'error',
  title: 'An application needs more fibres than it is given',
  explanation:
    'A duplex application takes two fibres, a parallel one eight or more. With fewer it cannot run; a dead fibre is none.',
  source:
    'Fibres per physical layer: IEEE 802.3 clauses of each application, as the library cites them.',
  bad: example(multimodePlan, link('1')),
  good: example(multimodePlan, link('1..2')),
  link: find,
};
