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
import { metresInWords } from './figures.ts';

export const indexConverted: Check = {
  name: 'index-converted',
  kind: 'note',
  severity: 'note',
  title: 'Distances were converted to the fibre’s group index',
  explanation:
    'A reflectometer measures time and divides by the group index it was set to: length is c·t ÷ 2n. Set too low, everything shows too long. Where the set-up says its index and the fibre has another, distances are converted before they are compared.',
  source:
    'Length from travel time, l = c·t ÷ (2·n): textbook; group index as set-up and fibre state it.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup.replace('1.468', '1.460'),
    traces('1  0    connector   0.31   0.28', '1  8.15 end         -      -'),
  ),
  good: soundTrace,
  link: noticed(
    'index-converted',
    (d) =>
      `${d.number('lengths') === 1 ? 'One length was' : `${d.text('lengths')} lengths were`} measured with a group index of ${d.text('set')}, and the fibre has ${d.text('glass')}: ${metresInWords(d.number('shown'))} shown is ${metresInWords(d.number('length'))} of glass. Set the instrument to the fibre’s index.`,
  ),
};
