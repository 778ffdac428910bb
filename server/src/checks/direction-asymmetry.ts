import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const directionAsymmetry: Check = {
  name: 'direction-asymmetry',
  kind: 'doubt',
  severity: 'warning',
  title: 'The two directions of a fibre differ',
  explanation:
    'Fibre and splices lose nearly the same both ways. A difference comes from dirt on one plug, a cord that does not match, or a step in core or mode-field size. The worse direction is judged; an average would hide it. What a limit allows in one direction alone, for a step in core size, is expected and not said.',
  source:
    'Common practice, no source (0.2 to 0.3 dB is usual); coupling loss at core steps in published tables, read in secondary texts.',
  bounds: [W.asymmetry],
  bad: example(
    multimodePlan.replace('directions  A>B', 'directions  both'),
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A', [
      '1  1.12  1.54  0.84  0.86',
      '2  1.08  1.05  0.80  0.83',
    ]),
  ),
  good: example(
    multimodePlan.replace('directions  A>B', 'directions  both'),
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A', [
      '1  1.12  1.15  0.84  0.86',
      '2  1.08  1.05  0.80  0.83',
    ]),
  ),
  link: noticed(
    'direction-asymmetry',
    (d) =>
      `Fibre ${d.text('fibre')} at ${d.text('wavelength')} nm lost ${d.db('forward')} A>B and ${d.db('back')} B>A, ${d.db('difference')} apart (${d.db('bound')} is usual${d.has('allowed') ? `, beside the ${d.db('allowed')} that its limit allows more in that direction` : ''}). ${d.has('coreStep') ? `The path has a step in core size (${d.text('coreStep')}), which loses in one direction only.` : 'Look at a cord, dirt at one end, or a step in core or mode field.'}`,
  ),
};
