import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

export const endFaceFails: Check = {
  name: 'end-face-fails',
  kind: 'doubt',
  severity: 'warning',
  title: 'An end face that must pass does not',
  explanation:
    'A dirty or scratched end face loses light, sends light back, and spoils the face it is mated with. Where the contract wants inspection, every end face passes before the link is accepted: clean it, inspect it again, and write what was seen. Look at end faces only through an instrument with a filter, and only when the light is off.',
  source:
    'Visual requirements of end faces after IEC 61300-3-35 (from memory), by the criterion that the block names.',
  bad: example(
    singleModePlan.replace('  zone', '  require     inspection\n  zone'),
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           fail
  2                pass           pass
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
    'end-face-fails',
    (d) =>
      `End face ${d.text('side')} of fibre ${d.text('fibre')} failed at its inspection of ${d.text('inspected')}. Switch the light off, clean it, inspect it again, and write what was seen.`,
  ),
};
