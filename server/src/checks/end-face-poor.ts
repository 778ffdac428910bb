import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

export const endFacePoor: Check = {
  name: 'end-face-poor',
  kind: 'note',
  severity: 'note',
  title: 'An end face does not pass, and nobody asked',
  explanation:
    'Nothing in the plan requires inspection, so a poor end face keeps nothing from being accepted. It is the commonest cause of high readings and spoils what it is mated with: clean it all the same.',
  source:
    'Visual requirements of end faces after IEC 61300-3-35 (from memory), by the criterion that the block names.',
  bad: example(
    singleModePlan,
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           fail
}
`,
  ),
  good: example(
    singleModePlan,
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           pass
}
`,
  ),
  link: noticed(
    'end-face-poor',
    (d) =>
      `End face ${d.text('side')} of fibre ${d.text('fibre')} failed at its inspection of ${d.text('inspected')}. Nothing requires it to pass; clean it before it is mated.`,
  ),
};
