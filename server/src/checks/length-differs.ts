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
    'A trace reads the length of the glass, which lies in the cable as a helix and is a little longer than the sheath, by 0.5 to 3 %. More than the larger of 3 % and 15 m is no helix: it is another fibre, another group index than the glass has, or a piece put in or taken out without record. Where all fibres that were measured agree with each other and none with the plan, it is said once, and the length that is declared comes first. Limits count the shorter of the two lengths until it is settled.',
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
  link: noticed('length-differs', (d) => {
    const over = d.number('percent') > 0;
    const apart = `${Math.abs(d.number('percent'))} % ${over ? 'over' : 'under'} the ${metresInWords(d.number('declared'))} declared`;
    const length = metresInWords(d.number('length'));
    // All of them have the same: it is hardly the fibre.
    if (d.has('measured')) {
      return `Fibres ${d.text('fibres')} all measure ${length} (median), ${apart}. Look first at the length that is declared and its unit, then at the group index that the instrument was set to, and whether another cable was measured.`;
    }
    return `Fibre ${d.text('fibre')} measures ${length}, ${apart}. Look at three things: whether it is this fibre, which group index the instrument was set to, and whether ${over ? 'a piece was put in without record' : 'it ends early, at a break or an open joint'}.`;
  }),
};
