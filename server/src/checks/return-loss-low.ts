import { type Check, noticed } from './check.ts';
import { example, spliceLimits, traceLink, tracePlan, traceSetup, traces } from './examples.ts';

export const returnLossLow: Check = {
  name: 'return-loss-low',
  kind: 'doubt',
  severity: 'error',
  title: 'A joint sends back too much light',
  explanation:
    'Reflectance is written as the trace shows it, a negative number; without its sign it is the return loss, of which more is better. Each direction counts by itself, since a reflection is of one side. Dirt, a gap or a straight plug in an angled adapter are the usual causes.',
  source:
    'Return loss as the limits or the connector say it (grades of IEC 61753-1, read in secondary texts).',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces(
      '1  0    connector   0.31   0.28   -48.0',
      '1  4.2  splice      0.05   0.09   -',
      '1  8.1  connector   0.26   0.30   -',
    ),
  ),
  good: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces(
      '1  0    connector   0.31   0.28   -63.0',
      '1  4.2  splice      0.05   0.09   -',
      '1  8.1  connector   0.26   0.30   -',
    ),
  ),
  link: noticed(
    'return-loss-low',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: ${d.text('part')} reflects ${d.db('value')}, so its return loss is ${d.db('over')} under the ${d.db('limit')} asked (${d.text('limitName')}). Clean and inspect both end faces, and look whether their polish fits.`,
  ),
};
