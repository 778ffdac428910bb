import { type Check, noticed } from './check.ts';
import {
  example,
  soundTrace,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
  traces,
} from './examples.ts';

export const endPairUnseen: Check = {
  name: 'end-pair-unseen',
  kind: 'doubt',
  severity: 'warning',
  title: 'An end pair was measured without the cord that lets it be seen',
  explanation:
    'A reflectometer sees nothing right behind its own plug: its flash hides the first pair unless a launch cord of some hundred metres lies before it, and the last pair ends the trace unless a tail cord follows. A figure for such a pair is not its loss.',
  source:
    'Launch and tail fibres of 500 m to 1 km are what contracts ask of traces (read in secondary texts).',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup.replace(/ {2}cord .*\n/gu, ''),
    traces('1  0    connector   0.31   0.28'),
  ),
  good: soundTrace,
  link: noticed(
    'end-pair-unseen',
    (d) =>
      `${d.text('part')} of fibre ${d.text('fibre')} was measured ${d.has('direction') ? `${d.text('direction')} ` : ''}with the set-up ${d.text('setup')}, which has no ${d.text('cord')} cord: a trace cannot show it. Write the cord that was there, or measure again with one.`,
  ),
};
