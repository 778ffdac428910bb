import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, type Details, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const cordGradeMissing: Check = {
  name: 'cord-grade-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'The limit depends on the grade of the test cords, and it is not said',
  explanation:
    'With two or three cords in the reference the pairs between them are taken off the reading. Whether they are worth an ordinary pair or a reference-grade one changes the limit by several tenths of a decibel, so a set-up that does not say cannot be judged. Reference-grade must be earned: both plugs declared, and a check on record.',
  source:
    'ISO/IEC 14763-3 and EN 50346 (reference connectors), read in secondary texts; the identity of references in IEC 61280-4-1.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup
      .replace('one-cord', 'three-cord')
      .replace(/ reference-grade/gu, '')
      .replace('  taken', '  cord        TC-3 substitution LC OM4\n  taken'),
    multimodeReadings('1  0.42  0.24', '2  0.48  0.20'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'cord-grade-missing',
    (d) => `${d.beginReadings('cannot', 'cannot')} be judged: ${d.text('because')}. ${remedy(d)}`,
  ),
};

/** Where the grade is said, and is not the one that the limit grants, no word will do. */
function remedy(d: Details): string {
  if (d.text('grade') !== C.ordinary) {
    return `Write ${C.referenceGrade} or ${C.ordinary} at the cords of ${d.text('setup')}.`;
  }
  return `Measure again with cords of reference grade, or judge by limits whose ${W.policy} is ${C.counting}.`;
}
