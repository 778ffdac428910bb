import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

export const budgetOverLimit: Check = {
  name: 'budget-over-limit',
  kind: 'doubt',
  severity: 'warning',
  title: 'The sum of most allowed losses is over the limit',
  explanation:
    'The design takes each part at the most it may lose. If that sum is over the governing limit, a link built entirely to specification can still fail. It may pass as measured; that is then true for this mating only. Where the design is refused to an application for the same loss, it is said of the application alone.',
  source:
    'Loss budget of IEC and TIA practice: attenuation times length plus pairs, splices and parts, compared with the channel loss of the application.',
  bad: example(multimodePlan, multimodeLink.replace('}', '  require     loss 1.9 dB\n}')),
  good: example(multimodePlan, multimodeLink.replace('}', '  require     loss 2.1 dB\n}')),
  link: noticed(
    'budget-over-limit',
    (d) =>
      `With every part at its most allowed loss the path${d.has('way') ? ` (${d.text('way')})` : ''} has ${d.db('worst')} at ${d.text('wavelength')} nm${d.has('direction') ? ` ${d.text('direction')}` : ''}, ${d.db('over')} over ${d.limit}${d.has('also') ? `, and so at ${d.text('also')}` : ''}. The largest terms are ${d.text('terms')}.${d.number('longest') >= 1 ? ` At most ${Math.floor(d.number('longest'))} m of this fibre would close it.` : ''}`,
  ),
};
