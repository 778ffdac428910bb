import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

const plan = (dead: string) =>
  example(
    multimodePlan,
    multimodeLink.replace('}', `  dead        ${dead} because "crushed in the duct"\n}`),
  );

function* find({ link }: LinkContext): Iterable<Found> {
  const { fibres, dead, name, namePlace } = link;
  const given = new Set(dead.map(({ fibre }) => fibre));
  if (fibres.length === 0 || !fibres.every((fibre) => given.has(fibre))) return;
  yield {
    place: namePlace,
    message: `${fibres.length === 1 ? 'The only fibre' : `All ${fibres.length} fibres`} of ${name} ${fibres.length === 1 ? 'is' : 'are'} given up as dead, so no reading of it is expected and nothing shows that it carries light. Take it out of the plan, or correct the numbers.`,
    details: { link: name, fibres: fibres.length },
  };
}

export const allFibresDead: Check = {
  name: 'all-fibres-dead',
  kind: 'doubt',
  severity: 'warning',
  title: 'Every fibre of a link is given up',
  explanation:
    'A fibre that is declared dead stays in the inventory and leaves what has to be measured. Where every fibre is, nothing is left to accept, and a link with no readings wanted would look like one in which all is well. If the link is abandoned, take it out or answer in words why it stays; if only some fibres are dead, name those.',
  source: 'Common practice, no source: dead fibres are listed and leave the coverage.',
  bad: plan('1..2'),
  good: plan('2'),
  link: find,
};
