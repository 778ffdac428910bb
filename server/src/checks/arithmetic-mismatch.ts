import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const arithmeticMismatch: Check = {
  name: 'arithmetic-mismatch',
  kind: 'contradiction',
  severity: 'error',
  title: 'Loss and powers of one reading disagree',
  explanation:
    'Where a reading gives both its loss and the power that arrived, the two are statements of one fact. If they differ by more than 0.02 dB, one is wrong, and nothing says which.',
  source:
    'Loss is the reference power less the measured power, in dB (arithmetic); 0.02 dB is common practice, no source.',
  bad: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm A>B power', [
      '1  1.31  -21.18',
      '2  1.08  -21.13',
    ]).replace('loss in dB', 'loss in dB\n  values      power in dBm'),
  ),
  good: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm A>B power', [
      '1  1.13  -21.18',
      '2  1.08  -21.13',
    ]).replace('loss in dB', 'loss in dB\n  values      power in dBm'),
  ),
  link: noticed(
    'arithmetic-mismatch',
    (d) =>
      `${d.Key}: the loss is given as ${d.db('loss')}, and ${d.dbm('reference')} less ${d.dbm('power')} makes ${d.db('computed')}, ${d.db('difference')} apart. One of them was typed or set wrongly; keep the one you can prove and withdraw the other.`,
  ),
};
