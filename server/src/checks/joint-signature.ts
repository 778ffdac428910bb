import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  singleModeLink,
  singleModePlan,
  singleModeReadings,
  singleModeSetup,
} from './examples.ts';

export const jointSignature: Check = {
  name: 'joint-signature',
  kind: 'note',
  severity: 'note',
  title: 'Both wavelengths lose alike too much: a joint',
  explanation:
    'Dirt and offset at a joint lose nearly the same at both wavelengths, a bend far more at the longer. A residual that is equal at both points to a connection or splice.',
  source: 'Common practice, no source; typical losses as the parts’ own figures say.',
  bounds: [W.joint],
  bad: example(
    singleModePlan,
    singleModeLink,
    singleModeSetup,
    singleModeReadings('1  1.50  1.38', '2  0.68  0.57'),
  ),
  good: example(
    singleModePlan,
    singleModeLink,
    singleModeSetup,
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  link: noticed(
    'joint-signature',
    (d) =>
      `Fibre ${d.text('fibre')}${d.has('direction') ? ` ${d.text('direction')}` : ''} loses ${d.db('residual')} more than its parts usually do at ${d.text('short')} nm, and ${d.db('residualLong')} more at ${d.text('long')} nm. Alike at both, that is a joint and no bend: clean and inspect the pairs.`,
  ),
};
