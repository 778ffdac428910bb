import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';
import { metresInWords } from './figures.ts';

export const eventUnexplained: Check = {
  name: 'event-unexplained',
  kind: 'doubt',
  severity: 'warning',
  title: 'A trace shows an event where the plan has no joint',
  explanation:
    'Every event of a trace is something in the path. One that is none of the declared joints is a joint nobody wrote down, a repair without record, a fault, or the trace of another fibre. An event is taken for the nearest joint of its kind within the larger of 3 % of its distance and 15 m, each joint once.',
  source:
    'Common practice, no source; the tolerance covers the helix of the fibre in its cable, the group index and the pulse.',
  bad: traceWith('1  6.4  splice      0.11   0.12'),
  good: soundTrace,
  link: noticed(
    'event-unexplained',
    (d) =>
      `Fibre ${d.text('fibre')}: a ${d.text('kind')} shows at ${metresInWords(d.number('at'))}, and the plan has none there (${d.text('where')}). Write the joint that is there, or look whose trace this is.`,
  ),
};
