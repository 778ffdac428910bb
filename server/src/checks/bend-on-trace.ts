import { type Check, noticed } from './check.ts';
import { example, spliceLimits, traceLink, tracePlan, traceSetup, traces } from './examples.ts';
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
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces(
      '1  0    connector   0.31   0.28',
      '1  4.2  splice      0.05   0.09',
      '1  6.4  bend        0.21   0.24',
      '1  8.1  connector   0.26   0.30',
    ),
  ),
  good: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces(
      '1  0    connector   0.31   0.28',
      '1  4.2  splice      0.05   0.09',
      '1  8.1  connector   0.26   0.30',
      '1  8.1  end         -      -',
    ),
  ),
  link: noticed(
    'bend-on-trace',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm: a bend shows at ${metresInWords(d.number('at'))}, ${d.text('where')}. Open what holds the fibre there, lay it wider, and measure again.`,
  ),
};
