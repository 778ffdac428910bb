import { type Check, noticed } from './check.ts';
import { angledPlan, example, multimodeSetup, reflected } from './examples.ts';

export const reflectanceNotJudged: Check = {
  name: 'reflectance-not-judged',
  kind: 'note',
  severity: 'note',
  title: 'A reflectance was read, and no return loss is asked',
  explanation:
    'A reflectance is judged by the least return loss of the connector at the end where the light goes in: that of the limits in force, or the connector’s own. Without a figure the reading is kept and shown, and judged by nothing.',
  source: 'Our own rule: no figure is invented where a text has none.',
  bad: example(
    angledPlan.replace('  return-loss LC min 60 dB\n', ''),
    multimodeSetup,
    reflected('-62.0'),
  ),
  good: example(angledPlan, multimodeSetup, reflected('-62.0')),
  link: noticed(
    'reflectance-not-judged',
    (d) =>
      `${d.Key}: a reflectance of ${d.db('value')} is not judged: ${d.text('because')}. Write return-loss in the limits if one is wanted.`,
  ),
};
