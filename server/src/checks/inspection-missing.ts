import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

export const inspectionMissing: Check = {
  name: 'inspection-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'End faces that must be inspected are not',
  explanation:
    'The plan requires inspection, so every end face of every fibre that is not declared dead has passed by its last inspection, after the last work on it. Keys are compared, not counts.',
  source: 'Common practice, no source: what a contract requires is listed key by key.',
  bad: example(
    singleModePlan.replace('  zone', '  require     inspection\n  zone'),
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           pass
}
`,
  ),
  good: example(
    singleModePlan.replace('  zone', '  require     inspection\n  zone'),
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           pass
  2                pass           pass
}
`,
  ),
  link: noticed(
    'inspection-missing',
    (d) =>
      `${d.number('missing')} end face${d.number('missing') === 1 ? ' is' : 's are'} still to inspect: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.`,
  ),
};
