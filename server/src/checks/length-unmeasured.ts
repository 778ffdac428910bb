import { type Check, noticed } from './check.ts';
import { example, spliceLimits, traceLink, tracePlan, traceSetup, traces } from './examples.ts';

export const lengthUnmeasured: Check = {
  name: 'length-unmeasured',
  kind: 'doubt',
  severity: 'warning',
  title: 'Lengths that the plan requires were not measured',
  explanation:
    'The plan requires lengths, so each fibre that is not declared dead has one: read for itself in a column `length`, or as the end of its trace. A measured length shows a wrong fibre or an unrecorded piece that no loss shows.',
  source: 'Common practice, no source: what a contract requires is listed key by key.',
  bad: example(
    tracePlan.replace('  zone', '  require     length\n  zone'),
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  8.1  end         -      -'),
  ),
  good: example(
    tracePlan.replace('  zone', '  require     length\n  zone'),
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  8.1  end         -      -', '2  8.1  end         -      -'),
  ),
  link: noticed(
    'length-unmeasured',
    (d) =>
      `${d.number('missing')} length${d.number('missing') === 1 ? ' is' : 's are'} still to measure: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.`,
  ),
};
