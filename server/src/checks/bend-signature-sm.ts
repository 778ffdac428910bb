import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  singleModeLink,
  singleModePlan,
  singleModeReadings,
  singleModeSetup,
} from './examples.ts';

export const bendSignatureSm: Check = {
  name: 'bend-signature-sm',
  kind: 'doubt',
  severity: 'warning',
  title: 'The longer wavelength loses too much: a bend',
  explanation:
    'Single-mode fibre loses less at 1550 nm than at 1310 nm. A tight bend lets the longer wavelength escape first. The excess is judged against the slope times the length, never by the bare difference: on a long link a bend can hide while 1550 nm is still the lower one.',
  source:
    'Typical attenuation of G.652.D, 0.34 and 0.19 dB/km (published, secondary); threshold of 0.20 dB common practice.',
  bounds: [W.bend],
  bad: example(
    singleModePlan,
    singleModeLink,
    singleModeSetup,
    singleModeReadings('1  0.71  1.22', '2  0.68  0.57'),
  ),
  good: example(
    singleModePlan,
    singleModeLink,
    singleModeSetup,
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  link: noticed(
    'bend-signature-sm',
    (d) =>
      `Fibre ${d.text('fibre')}${d.has('direction') ? ` ${d.text('direction')}` : ''} lost ${d.db('lossLong')} at ${d.text('long')} nm and ${d.db('lossShort')} at ${d.text('short')} nm: ${d.db('excess')} more at the longer wavelength than the fibre’s slope over this length explains (${d.db('slope')}). That is how a bend looks. Check closures, trays and ties.`,
  ),
};
