import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

export const endFaceNotSeenAgain: Check = {
  name: 'end-face-not-seen-again',
  kind: 'note',
  severity: 'note',
  title: 'An end face was cleaned and not looked at since',
  explanation:
    'Cleaning is not passing: it may leave a film, or only move the dirt. The face counts as passed when somebody looked at it afterwards and wrote so.',
  source: 'Inspect, clean, inspect again: practice after IEC 61300-3-35 (from memory).',
  bad: example(
    singleModePlan,
    singleModeLink,
    `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   "visual requirements of the contract, clause 9"
  columns fibre, A,              B
  1                pass           cleaned
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
    'end-face-not-seen-again',
    (d) =>
      `End face ${d.text('side')} of fibre ${d.text('fibre')} was cleaned and not inspected since, so it has not passed yet. Inspect it and write what is seen.`,
  ),
};
