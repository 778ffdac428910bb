import { type Check, noticed } from './check.ts';
import { example, readings, singleModeLink, singleModePlan, singleModeSetup } from './examples.ts';

export const portUnseen: Check = {
  name: 'port-unseen',
  kind: 'doubt',
  severity: 'warning',
  title: 'Nobody saw where the light of some fibres comes out',
  explanation:
    'A passed loss proves no pairing: two fibres that are swapped lose as little as two that are not. The plan requires that the port be seen, so each fibre that is not declared dead has one in a column `seen`. Never look into a fibre: use a meter or a visible source of low power.',
  source:
    'Common practice, no source: continuity and polarity are proved by light at a port, never by loss.',
  bad: example(
    singleModePlan.replace('  zone', '  require     seen\n  zone'),
    singleModeLink.replace(
      '  fibres      1..2',
      '  from        OPS/A:01..02\n  to          B3/A:01..02',
    ),
    singleModeSetup,
    readings('SM-1', 'seen, 1310 nm A>B, 1550 nm A>B', [
      '1  B3/A:01  0.71  0.62',
      '2  -        0.68  0.57',
    ]),
  ),
  good: example(
    singleModePlan.replace('  zone', '  require     seen\n  zone'),
    singleModeLink.replace(
      '  fibres      1..2',
      '  from        OPS/A:01..02\n  to          B3/A:01..02',
    ),
    singleModeSetup,
    readings('SM-1', 'seen, 1310 nm A>B, 1550 nm A>B', [
      '1  B3/A:01  0.71  0.62',
      '2  B3/A:02  0.68  0.57',
    ]),
  ),
  link: noticed(
    'port-unseen',
    (d) =>
      `The port of ${d.number('missing')} fibre${d.number('missing') === 1 ? '' : 's'} is still to see: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.`,
  ),
};
