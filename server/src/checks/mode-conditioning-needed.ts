import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const link = (application: string, more = '') => `link KQ-1 {
  fibres      1..2
  measure     1300 nm
  connector   LC
  segment     180 m OM2
  connector   LC
  carries     ${application}
${more}}
`;

export const modeConditioningNeeded: Check = {
  name: 'mode-conditioning-needed',
  kind: 'doubt',
  severity: 'warning',
  title: 'An application needs mode-conditioning cords on this fibre',
  explanation:
    'A laser that is made for single-mode fibre lights multimode fibre in its middle, where older fibre delays modes most unevenly: the signal is smeared though enough light arrives. A mode-conditioning cord between transmitter and fibre, at both ends, sets the light beside the middle. ' +
    'The plan has no part for it. Answer with silence that the cords are there, or take another application.',
  source:
    'IEEE 802.3 clause 38 for 1000BASE-LX on multimode, from memory; a cable supplier’s table and a trade association’s page on 10GBASE-LX4 say the same.',
  bad: example(multimodePlan, link('1000BASE-LX')),
  good: example(
    multimodePlan,
    link(
      '1000BASE-LX',
      '  silence     mode-conditioning-needed because "conditioning cords at both ends, in stock"\n',
    ),
  ),
  link: noticed(
    'mode-conditioning-needed',
    (d) =>
      `${d.text('application')} goes over this fibre (${d.text('row')}) only with a mode-conditioning cord between transmitter and fibre at both ends, and the plan cannot see whether they are there. Say so with silence, or carry another application.`,
  ),
};
