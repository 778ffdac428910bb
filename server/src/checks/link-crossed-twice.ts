import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import { fibresInWords } from './figures.ts';

const plan = (back: string) =>
  example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..4'),
    `channel CH-1 {
  cord        2 m OM4 crossed
  link        KQ-1 fibres 1..2
  cord        3 m OM4 straight
  link        KQ-1 turned fibres ${back}
  cord        2 m OM4 straight
}
`,
  );

/** Fibres that two lines of one path both take of the same link. */
function* find({ link }: LinkContext): Iterable<Found> {
  if (link.kind !== 'channel' && link.kind !== 'ring') return;
  const before = new Map<string, { fibres: readonly number[]; place: Found['place'] }[]>();
  for (const element of link.path) {
    if (element.kind !== 'link') continue;
    const { name, place } = element;
    const fibres = element.fibres ?? element.link?.fibres ?? [];
    const earlier = before.get(name) ?? [];
    before.set(name, [...earlier, { fibres, place }]);
    for (const other of earlier) {
      const shared = fibres.filter((fibre) => other.fibres.includes(fibre));
      if (shared.length === 0) continue;
      yield {
        place,
        related: [{ place: other.place, message: 'The line that takes them first.' }],
        message: `${link.name} crosses ${fibresInWords(shared)} of ${name} twice, and light goes along a fibre once. Take the line out, or name other fibres for the way back.`,
        details: { channel: link.name, link: name, fibre: shared[0]! },
      };
      break;
    }
  }
}

export const linkCrossedTwice: Check = {
  name: 'link-crossed-twice',
  kind: 'doubt',
  severity: 'error',
  title: 'One path takes the same fibres of a link twice',
  explanation:
    'A path that comes back over fibres it has used already is a line written twice, or a way back whose fibres were not changed. Its loss, its length and its polarity are then those of a path that nobody can patch. A loop over other fibres of the same link is fine: name them.',
  source: 'Common practice, no source: a fibre lies in one path once.',
  bad: plan('1..2'),
  good: plan('3..4'),
  link: find,
};
