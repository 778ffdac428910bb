import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

export const reachExceeded: Check = {
  name: 'reach-exceeded',
  kind: 'note',
  severity: 'error',
  title: 'The path is longer than the application reaches',
  explanation:
    'The reach of an application is a matter of bandwidth, not of loss: a low-loss path that is too long still fails to carry it. Reach counts the cords. Only a row of the application’s table all of whose terms hold may be used, never the reach of one row and the loss of another.',
  source:
    'Reach per fibre category: IEEE 802.3 clauses of each application, as the library cites them.',
  bad: example(
    multimodePlan,
    multimodeLink.replace('180 m', '480 m').replace('}', '  carries     10GBASE-SR\n}'),
  ),
  good: example(multimodePlan, multimodeLink.replace('}', '  carries     10GBASE-SR\n}')),
  link: noticed(
    'reach-exceeded',
    (d) =>
      `${d.text('application')} reaches ${d.text('reach')} m on this fibre, and the path${d.has('way') ? ` (${d.text('way')})` : ''} is ${d.text('length')} m, ${Number(d.number('over').toFixed(3))} m more. Its bandwidth ends before its loss does: another fibre, another application, or a shorter path.`,
  ),
};
