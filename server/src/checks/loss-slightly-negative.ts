import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const lossSlightlyNegative: Check = {
  name: 'loss-slightly-negative',
  kind: 'note',
  severity: 'note',
  title: 'A loss below zero that is possible',
  explanation:
    'With two or three cords in the reference the pairs between them are taken off the reading. If one of them is poorer than the pairs of a very short link, the result falls below zero and is still legitimate.',
  source: 'Identity of the reference methods in IEC 61280-4-1; the bound is arithmetic.',
  bad: example(
    multimodePlan.replace('one-cord', 'three-cord'),
    multimodeLink.replace('180 m', '3 m'),
    multimodeSetup
      .replace('one-cord', 'three-cord')
      .replace('  taken', '  cord        TC-3 substitution LC OM4 reference-grade\n  taken'),
    multimodeReadings('1  -0.12  0.02', '2  0.04  0.02'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'loss-slightly-negative',
    (d) =>
      `${d.Key} reads ${d.db('loss')}, a little below zero. With ${d.text('grade')} cords in the reference that is possible down to ${d.db('lowest')}: a pair inside the reference lost more than the link’s. The reading stands and says little about so short a link.`,
  ),
};
