import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

export const applicationLossExceeded: Check = {
  name: 'application-loss-exceeded',
  kind: 'note',
  severity: 'error',
  title: 'The path loses more than the application allows',
  explanation:
    'The application’s channel loss is a limit of its own beside the sum of component allowances. A link may pass every component limit and still lose more than the application can bear, by its many connections for instance.',
  source: 'Channel insertion loss per application: IEEE 802.3 clauses, as the library cites them.',
  bad: example(
    multimodePlan,
    multimodeLink
      .replace(
        '  segment     180 m OM4',
        '  segment     90 m OM4\n  connector   LC\n  segment     90 m OM4\n  connector   LC\n  segment     60 m OM4',
      )
      .replace('}', '  carries     10GBASE-SR\n}'),
  ),
  good: example(multimodePlan, multimodeLink.replace('}', '  carries     10GBASE-SR\n}')),
  link: noticed(
    'application-loss-exceeded',
    (d, { link }) =>
      `${link.name} does not support ${d.text('application')}: ${d.text('because')}${d.has('limit') ? `, and ${d.db('limit')} is allowed` : ''}.${d.has('terms') ? ` The largest terms are ${d.text('terms')}.` : ''}${d.number('longest') >= 1 ? ` At most ${Math.floor(d.number('longest'))} m of this fibre in all would close it.` : ''} Look at the joints, or at what else the path could carry.`,
  ),
};
