import { type Check, noticed } from './check.ts';
import {
  example,
  singleModeLink,
  singleModePlan,
  singleModeReadings,
  singleModeSetup,
} from './examples.ts';

export const cordPolishMismatch: Check = {
  name: 'cord-polish-mismatch',
  kind: 'contradiction',
  severity: 'error',
  title: 'An angled plug meets a flat one',
  explanation:
    'Angled and flat end faces do not touch: the pair loses more than 3 dB, reflects, and the end faces can be chipped. No reading through such a pair describes the link.',
  source:
    'Common practice; a loss of over 3 dB is stated in trade texts (read in secondary texts).',
  bad: example(
    singleModePlan,
    singleModeLink.replaceAll('connector   LC', 'connector   LC-APC'),
    singleModeSetup,
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  good: example(
    singleModePlan,
    singleModeLink.replaceAll('connector   LC', 'connector   LC-APC'),
    singleModeSetup.replaceAll(' LC OS2', ' LC-APC OS2'),
    singleModeReadings('1  0.71  0.62', '2  0.68  0.57'),
  ),
  link: noticed(
    'cord-polish-mismatch',
    (d) =>
      `The ${d.text('role')} cord ${d.text('cord')} is polished ${d.text('polish')}, and the end it meets ${d.text('port')}: one is angled, the other flat. The pair has an air gap, loses several decibels and may be damaged. Use a cord with the polish of the port; ${d.readings} cannot stand.`,
  ),
};
