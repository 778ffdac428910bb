import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';
import { metresInWords } from './figures.ts';

export const spliceOverObjective: Check = {
  name: 'splice-over-objective',
  kind: 'doubt',
  severity: 'warning',
  title: 'A splice is over the objective, and within its limit',
  explanation:
    'Limits may hold the sum of a link to a tighter objective than one splice by itself. A splice between the two figures passes alone, and uses up what another splice has left. Contracts let it stand after some attempts: say in a silence what was tried.',
  source:
    'Objective and hard figure for the average of two directions, and a number of attempts before the objective is given up: fibre splicing and acceptance exhibit of a public contract.',
  bad: traceWith('1  4.2  splice      0.05   0.31'),
  good: soundTrace,
  link: noticed(
    'splice-over-objective',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: ${d.text('part')}, ${metresInWords(d.number('at'))} along, loses ${d.db('average')} on average, ${d.db('over')} over the objective of ${d.db('objective')} and within the ${d.db('limit')} that one may have (${d.text('limitName')}). Splice it again, or say why it stands.`,
  ),
};
