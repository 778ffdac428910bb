import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';

export const eventImpossible: Check = {
  name: 'event-impossible',
  kind: 'contradiction',
  severity: 'error',
  title: 'A joint seems to gain light in both directions together',
  explanation:
    'One direction may show a gain where two fibres scatter unlike, and the other shows the same too much. If both together still gain, the joint would amplify, which none does. The row, the place or the sign of a value is wrong.',
  source:
    'Average of both directions of a backscatter measurement cannot be negative; a tolerance of 0.05 dB for noise is common practice, no source.',
  bad: traceWith('1  4.2  splice      -0.26  0.02'),
  good: soundTrace,
  link: noticed(
    'event-impossible',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: ${d.text('part')} would gain light, ${d.db('average')} on average. Look at the sign, at the row, and at where the markers stood.`,
  ),
};
