import { type Check, noticed } from './check.ts';
import { example, spliceLimits, traceLink, tracePlan, traceSetup, traces } from './examples.ts';

export const traceMissing: Check = {
  name: 'trace-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'Traces that the plan requires are not there',
  explanation:
    'The plan requires events, so every fibre that is not declared dead has a trace at each wavelength that is measured; both ways where splices lie in the path, since a splice is the average of two directions. Work ages traces as it does readings.',
  source:
    'Both directions at both wavelengths are what city and county contracts ask of traces (read in secondary texts).',
  bad: example(
    tracePlan.replace('  zone', '  require     events\n  zone'),
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  0    connector   0.31   0.28'),
  ),
  good: example(
    tracePlan.replace('  zone', '  require     events\n  zone'),
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  0    connector   0.31   0.28', '2  0    connector   0.29   0.27'),
  ),
  link: noticed(
    'trace-missing',
    (d) =>
      `${d.number('missing')} trace${d.number('missing') === 1 ? ' is' : 's are'} still to make: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.`,
  ),
};
