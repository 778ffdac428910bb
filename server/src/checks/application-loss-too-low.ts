import { type Check, noticed } from './check.ts';
import { example, singleModePlan, tree, treeParts } from './examples.ts';
import { uncountedInWords } from './light-windows.ts';

export const applicationLossTooLow: Check = {
  name: 'application-loss-too-low',
  kind: 'note',
  severity: 'error',
  title: 'The path may lose less than the application asks at least',
  explanation:
    'Applications over splitters have a class: so much loss at most, and so much at least, for a receiver that gets too much light sees no more than one that gets too little. The least that a path can lose counts fibre, components and splitters with their min, a splitter without one with its even split, joints with nothing. A short way past a splitter, or one to a spare output of the first, is where it happens; an attenuator of known min and max puts it right.',
  source:
    'Attenuation range of the optical path per class: ITU-T G.984.2 and G.9807.1; the even split is conservation of energy.',
  bad: example(singleModePlan, treeParts, tree('out 2..4 to D-2, D-3, D-4 as drop')),
  good: example(singleModePlan, treeParts, tree('out 2..4 spare')),
  link: noticed(
    'application-loss-too-low',
    (d) =>
      `${d.text('application')} asks for ${d.db('wanted')} at least, and ${d.has('way') ? d.text('way') : 'the path'} ${d.text('from') === 'reading' ? 'loses' : 'may lose as little as'} ${d.db('least')}, ${d.db('under')} too little. Put in an attenuator, or another splitter.${uncountedInWords(d.has('uncounted') ? d.text('uncounted').split(', ') : [])}`,
  ),
};
