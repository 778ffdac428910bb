import { type Check, noticed } from './check.ts';
import { example, readings, singleModeLink, singleModePlan, singleModeSetup } from './examples.ts';

export const wrongPair: Check = {
  name: 'wrong-pair',
  kind: 'contradiction',
  severity: 'error',
  title: 'Light came out at another port than the plan says',
  explanation:
    'The plan lets the light of a fibre out at one port, and somebody saw it at another. Both cannot be true, so readings of that light are of another pair than the one they stand under. Two fibres that each came out at the other’s port are swapped; one that did so alone is connected elsewhere, or the row names the wrong port.',
  source:
    'Our own rule: two statements of one fact. A loss pass proves no polarity (practice of array and duplex cabling).',
  bad: example(
    singleModePlan,
    singleModeLink.replace(
      '  fibres      1..2',
      '  from        OPS/A:01..02\n  to          B3/A:01..02',
    ),
    singleModeSetup,
    readings('SM-1', 'seen, 1310 nm A>B, 1550 nm A>B', [
      '1  B3/A:02  0.71  0.62',
      '2  B3/A:01  0.68  0.57',
    ]),
  ),
  good: example(
    singleModePlan,
    singleModeLink.replace(
      '  fibres      1..2',
      '  from        OPS/A:01..02\n  to          B3/A:01..02',
    ),
    singleModeSetup,
    readings('SM-1', 'seen, 1310 nm A>B, 1550 nm A>B', [
      '1  B3/A:01  0.71  0.62',
      '2  B3/A:02  0.68  0.57',
    ]),
  ),
  link: noticed(
    'wrong-pair',
    (d) =>
      `Light of fibre ${d.text('fibre')} came out at ${d.text('seen')}, and the plan lets it out at ${d.text('wanted')}. ${d.has('swapped') ? `Fibre ${d.text('swapped')} came out where this one should: the two are swapped. Exchange them, or correct the map of the path.` : d.has('belongs') ? `That is the port of fibre ${d.text('belongs')}. Trace it from both ends, or correct the map of the path.` : 'That is no port of this object. Look at the port, or at where the fibre is connected.'}`,
  ),
};
