import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

const inspection = (criterion: string) => `inspection KQ-1 {
  tested      2026-03-14 09:00 by "R. Vale"
  criterion   ${criterion}
  columns fibre, A,              B
  1                pass           pass
}
`;

export const criterionOfOtherFace: Check = {
  name: 'criterion-of-other-face',
  kind: 'doubt',
  severity: 'warning',
  title: 'End faces were graded by the criterion of another kind',
  explanation:
    'A multimode core is more than twice as wide and bears scratches and spots that a single-mode one does not; an angled face is graded by another table than a straight one. A face that passed the wrong table has not been graded. It is looked at where an inspection names a declared criterion that says its mode or its polish.',
  source:
    'IEC 61300-3-35:2015, tables by kind of connector, as a connector maker’s installation manual of 2018 prints them.',
  bad: example(singleModePlan, singleModeLink, inspection('FACE-MM-PC')),
  good: example(singleModePlan, singleModeLink, inspection('FACE-SM-PC')),
  link: noticed(
    'criterion-of-other-face',
    (d) =>
      `${d.text('criterion')} is for ${d.text('graded')} faces, and those at ${d.text('side')} of ${d.text('link')} are ${d.text('faces')}. Grade them by the criterion of their own kind.`,
  ),
};
