import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';
import { metresInWords } from './figures.ts';

export const jointOverLimit: Check = {
  name: 'joint-over-limit',
  kind: 'doubt',
  severity: 'error',
  title: 'A joint on a trace loses more than it may',
  explanation:
    'One joint is held to its own figure: a splice to the hard figure of its limits (an objective below it is what a sum takes), a pair or a part to the figure a sum counts for it. What is compared is the average of both directions, as a sum, so that nothing is rounded. A whole link may pass its sum while one joint is bad, and a bad joint grows worse.',
  source:
    'Splice accepted by the average of two directions, hard figure for one alone: fibre splicing and acceptance exhibit of a public contract. Pairs: the figure of the limits in force.',
  bad: traceWith('1  4.2  splice      0.12   0.34'),
  good: soundTrace,
  link: noticed(
    'joint-over-limit',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: ${d.text('part')}, ${metresInWords(d.number('at'))} along, loses ${d.has('average') ? `${d.db('average')} on average` : d.db('value')}, ${d.db('over')} over the limit of ${d.db('limit')} (${d.text('limitKind')}, ${d.text('limitName')}). Make the joint again, and write the work with its date.`,
  ),
};
