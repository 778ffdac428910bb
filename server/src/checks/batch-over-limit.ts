import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const batchOverLimit: Check = {
  name: 'batch-over-limit',
  kind: 'doubt',
  severity: 'warning',
  title: 'The readings together miss what the contract asks of a batch',
  explanation:
    'Some contracts ask something of the batch: that its mean, or a share of it, keeps within a loss. That is judged on all readings together and turns no single reading into a fail.',
  source: 'Contract figures of this form stand in public splicing and acceptance exhibits (read).',
  bad: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('}', '  require     loss 1.00 dB wavelength 850 nm mean\n}'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B', ['1  1.12', '2  1.08']),
  ),
  good: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('}', '  require     loss 1.20 dB wavelength 850 nm mean\n}'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B', ['1  1.12', '2  1.08']),
  ),
  link: noticed('batch-over-limit', (d, { link }) =>
    d.text('wanted') === 'mean'
      ? `The mean of ${d.number('readings')} readings of ${link.name} at ${d.text('wavelength')} nm is ${d.db('mean')}; the contract allows ${d.db('limit')}. Each reading is judged by itself besides.`
      : `${d.number('within')} of ${d.number('readings')} readings of ${link.name} at ${d.text('wavelength')} nm are within ${d.db('limit')}; the contract asks that of ${d.text('wanted')}. Each reading is judged by itself besides.`,
  ),
};
