import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
  soundBatch,
} from './examples.ts';
import { orItsLength } from './spoken-length.ts';

export const batchTooHigh: Check = {
  name: 'batch-too-high',
  kind: 'note',
  severity: 'warning',
  title: 'A whole batch loses more than its parts usually do',
  explanation:
    'What all readings of a set-up share is their reference and its cords, not their own joints. A test cord that got dirty after the reference, a source that fell, or a cord of another core makes all of them too high by the same. That is on the safe side, and costs fibres that are good. A link of fewer than four readings a column has no level of its own: where one set-up measured four such links or more, the median of one figure each is asked.',
  source: 'Common practice, no source; typical losses as the parts’ own figures say.',
  bounds: [W.tooHigh],
  bad: example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..12'),
    multimodeSetup,
    multimodeReadings(
      '1  1.87  1.61',
      '2  1.80  1.55',
      '3  1.84  1.60',
      '4  1.92  1.66',
      '5  1.77  1.52',
      '6  1.89  1.65',
      '7  1.83  1.57',
      '8  1.81  1.56',
      '9  1.90  1.66',
      '10  1.79  1.53',
      '11  1.86  1.61',
      '12  1.82  1.58',
    ),
  ),
  good: soundBatch,
  link: noticed('batch-too-high', (d, context) => {
    const high = `${d.beginReadings('is', 'are')} high together: at ${d.text('wavelength')} nm the median is ${d.db('median')}, ${d.db('away')} more than these parts usually lose.`;
    if (d.has('asPower')) {
      return `${high} Taken for powers that lack their minus they make ${d.db('asPower')}, which these parts do lose: look what the meter showed, and write power in dBm, each with its minus.`;
    }
    const core = d.has('coreStep')
      ? 'So much is lost where light goes from a greater core to a smaller: compare the core of the test cords with that of the link, then inspect'
      : 'Inspect';
    return `${high} ${core} and clean the plugs of set-up ${d.text('setup')} and check its reference before the link is blamed.${orItsLength(context)}`;
  }),
};
