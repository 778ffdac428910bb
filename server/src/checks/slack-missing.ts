import type { CableContext, Check, Found } from './check.ts';
import { example, singleModePlan } from './examples.ts';

function* find({ cable }: CableContext): Iterable<Found> {
  const closures = cable.joints.filter((joint) => joint?.at !== undefined);
  if (closures.length === 0 || cable.slack > 0) return;
  yield {
    place: cable.namePlace,
    message:
      `${cable.name} is spliced at ${closures.length === 1 ? `“${closures[0]?.at}”` : `${closures.length} places`} and says no slack. ` +
      'Without some metres coiled up a closure cannot be lifted out and opened again. Write slack and how much lies where: it counts in the limit.',
    details: { cable: cable.name, closures: closures.length },
  };
}

const plan = (slack: string) =>
  example(
    singleModePlan,
    `cable C-101 {
  fibre       OS2
  count       12
  reel        R-01 2100 m
  splice      fusion at "closure 1"
  reel        R-02 1900 m
${slack}}
`,
    `link KQ-1 {
  connector   LC
  segment     C-101 fibres 1..12
  connector   LC
}
`,
  );

export const slackMissing: Check = {
  name: 'slack-missing',
  kind: 'note',
  severity: 'note',
  title: 'A spliced cable says no slack',
  explanation:
    'At each closure and panel some metres of cable are left coiled, so that it can be taken to a dry place, opened and spliced again. That length is part of the cable: its loss counts, and a trace shows it.',
  source:
    'One public specification wants 25 ft on each side of a splice (read); as a rule common practice, no source.',
  bad: plan(''),
  good: plan('  slack       15 m at "closure 1"\n'),
  cable: find,
};
