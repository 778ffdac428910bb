import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, type Details, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const overLimit: Check = {
  name: 'over-limit',
  kind: 'note',
  severity: 'error',
  title: 'A reading is over its limit',
  explanation:
    'The reading lies above the governing limit by more than the decision rule forgives. Clean and inspect both ends first: dirt is the commonest cause. Then compare the two directions and the two wavelengths: a bend shows at the longer wavelength, a joint at both alike. A repaired joint is a work block with its date, and every reading of the fibre is taken again.',
  source:
    'Limit: sum of component allowances, the application’s channel loss or the contract’s figure, whichever is smallest (IEC/TIA practice). Decision rules: ILAC-G8:09/2019, read in secondary texts.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.31  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed('over-limit', (d) => `${d.Key} ${excess(d)}. ${remedy(d)}${concession(d)}`),
};

function remedy(d: Details): string {
  if (d.has('action')) return `By ${d.text('limitName')}: ${retest(d)}`;
  if (d.strong) return 'Too much light arrives: put an attenuator in, and look at what is sent.';
  return 'Clean both ends and measure again; if it stays, look at the joints.';
}

/** What a limits set with a band says; the band stands beside the excess, with as many places as part them. */
function retest(d: Details): string {
  const from = `from ${d.db('reject')} over the limit on`;
  if (d.text('action') !== W.reject) return `${d.text('action')}; ${from} it is rejected.`;
  const why = d.has('far')
    ? `F${from.slice(1)} no retest is allowed`
    : 'It was measured again already, and no further retest is allowed';
  return `${W.reject}. ${why}: make the ends or the joint again, or replace it.`;
}

/** Over the limit, or inside it by less than a decision that guards against error wants. */
function excess(d: Details): string {
  if (d.has('dark') && d.has('power'))
    return `saw no light: less than ${d.dbm('power')} is outside ${d.limit}`;
  if (d.has('dark')) return `saw no light, so its loss is over ${d.limit}`;
  if (d.has('over')) return beside(d);
  return `${beside(d)}; the plan accepts only what keeps the uncertainty of ${d.db('uncertainty')} away from it`;
}

/** `lost 2.81 dB, 0.005 dB over the limit of 2.805 dB (…)`, or at it, or inside it. */
export function beside(d: Details): string {
  if (d.has('over')) return `${d.measured}, ${d.beyond}`;
  return `${d.measured}, ${d.number('margin') === 0 ? 'just at' : `${d.db('margin')} inside`} ${d.limit}`;
}

/** A concession that is there and does not cover the reading, in a sentence. */
export function concession(d: Details): string {
  if (!d.has('accepted')) return '';
  const one = ` The concession of up to ${d.db('accepted')} by ${d.text('acceptedBy')}`;
  return d.has('ended') ? `${one} ended on ${d.text('ended')}.` : `${one} does not reach so far.`;
}
