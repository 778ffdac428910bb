import { type Check, noticed } from './check.ts';
import { example, singleModePlan, tree, treeParts } from './examples.ts';

export const differentialExceeded: Check = {
  name: 'differential-exceeded',
  kind: 'note',
  severity: 'error',
  title: 'Two ends of a tree lie further apart than the application bears',
  explanation:
    'The receiver at the head of a tree hears its ends one after the other, each as strong as its way lets it be. From the weakest to the strongest it can follow only so far. The difference is the greatest loss of one end less the least of any other, at one wavelength; it concerns the tree, whichever of the two ends is changed.',
  source:
    'Differential optical path loss: ITU-T G.984.2 and G.9807.1, 15 dB in their classes (from memory).',
  bad: example(
    singleModePlan,
    treeParts.replace('min 13 dB differential 20 dB', 'min 3 dB differential 12 dB'),
    tree('out 2..4 to D-2, D-3, D-4 as drop'),
  ),
  good: example(
    singleModePlan,
    treeParts.replace('min 13 dB differential 20 dB', 'min 3 dB differential 12 dB'),
    tree('out 2..4 spare'),
  ),
  link: noticed(
    'differential-exceeded',
    (d) =>
      `${d.text('highest')} may lose ${d.db('differential')} more than ${d.text('lowest')} at ${d.text('wavelength')} nm, and ${d.text('application')} bears ${d.db('limit')} between any two ends: ${d.db('over')} too much. Bring them nearer: an attenuator at the one, fewer joints at the other.`,
  ),
};
