import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';
import { metresInWords } from './figures.ts';

export const bendOnTrace: Check = {
  name: 'bend-on-trace',
  kind: 'doubt',
  severity: 'warning',
  title: 'A trace shows a bend',
  explanation:
    'A loss without a reflection where no joint lies is light escaping from a bend: a tie, a tray, a closure shut on a fibre. Nothing is allowed for it in any limit, and it grows with the wavelength. Measure after the closure is shut.',
  source:
    'Common practice, no source; an acceptance exhibit of a public contract measures after closures are shut for this reason.',
  bad: traceWith('1  6.4  bend        0.21   0.24'),
  good: soundTrace,
  link: noticed(
    'bend-on-trace',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: a bend shows at ${metresInWords(d.number('at'))}, ${d.text('where')}. Open what holds the fibre there, lay it wider, and measure again.`,
  ),
};
