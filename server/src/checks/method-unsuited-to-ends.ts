import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

/** A link between sockets of which the plan wants readings that leave its end pairs out. */
function* find({ link }: LinkContext): Iterable<Found> {
  if (link.kind !== 'link' || link.ways.length > 0) return;
  const wanted = link.terms.reference;
  const sockets = [link.path[0], link.path.at(-1)].every((end) => end?.kind === 'connector');
  if (!sockets || wanted !== 'three-cord') return;
  yield {
    place: link.namePlace,
    message:
      `${link.name} ends in sockets, and a three-cord reference takes what both end pairs lose away: what was installed there is judged by less than it should be. ` +
      'A one-cord reference with a receive cord sees both.',
    details: { link: link.name, reference: wanted },
  };
}

export const methodUnsuitedToEnds: Check = {
  name: 'method-unsuited-to-ends',
  kind: 'note',
  severity: 'note',
  title: 'The wanted reference does not suit the ends of the link',
  explanation:
    'How many cords are in the reference decides which pairs a reading holds. Installed cabling ends in sockets, and its end pairs belong to it: one cord. Three cords are for what ends in plugs and meets the test cords through adapters that do not belong to it. The limit follows whatever was used, so nothing is wrong by itself; only less is proven than one may think.',
  source:
    'Which number of cords suits which ends: tables of configurations after ISO/IEC 14763-3 and IEC 61280-4-1, read in secondary texts.',
  bad: example(multimodePlan.replace('one-cord', 'three-cord'), multimodeLink),
  good: example(multimodePlan, multimodeLink),
  link: find,
};
