import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, spliceLimits, traceLink, tracePlan, traceSetup, traces } from './examples.ts';
import { metresInWords } from './figures.ts';

export const lengthDiffers: Check = {
  name: 'length-differs',
  kind: 'doubt',
  severity: 'warning',
  title: 'A fibre is longer or shorter than the plan says',
  explanation:
    'A trace reads the length of the glass, which lies in the cable as a helix and is a little longer than the sheath, by 0.5 to 3 %. More than the larger of 3 % and 15 m is no helix: it is another fibre, another group index than the glass has, or a piece put in or taken out without record. Limits count the shorter of the two lengths until it is settled.',
  source: 'Common practice, no source; the share that a helix takes is from memory.',
  bounds: [W.length],
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  0    connector   0.31   0.28', '1  8.7  end         -      -'),
  ),
  good: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  0    connector   0.31   0.28', '1  8.2  end         -      -'),
  ),
  link: noticed(
    'length-differs',
    (d) =>
      `Fibre ${d.text('fibre')} measures ${metresInWords(d.number('length'))}, ${Math.abs(d.number('percent'))} % ${d.number('percent') > 0 ? 'over' : 'under'} the ${metresInWords(d.number('declared'))} declared. Look at three things: whether it is this fibre, which group index the instrument was set to, and whether ${d.number('percent') > 0 ? 'a piece was put in without record' : 'it ends early, at a break or an open joint'}.`,
  ),
};
