import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

const other = multimodeSetup.replace('setup MM-1', 'setup MM-2');
const first = multimodeReadings('1  1.12  0.84', '2  1.08  0.80').replace(
  '09:05 to 09:40',
  '09:05',
);
const second = (time: string) =>
  multimodeReadings('1  1.13  0.85').replace('09:05 to 09:40', time).replace('MM-1', 'MM-2');

export const setUpsClaimOneReading: Check = {
  name: 'set-ups-claim-one-reading',
  kind: 'contradiction',
  severity: 'error',
  title: 'Two set-ups claim the same reading',
  explanation:
    'One fibre was measured at one wavelength and in one direction at one minute, and two blocks say with which set-up: two statements of one fact. Neither stands until one is taken out or has its own time, for they have two references and may have two limits.',
  source: 'Our own rule: a reading belongs to one set-up, as to one reference.',
  bad: example(multimodePlan, multimodeLink, multimodeSetup, other, first, second('09:05')),
  good: example(multimodePlan, multimodeLink, multimodeSetup, other, first, second('09:45')),
  link: noticed(
    'set-ups-claim-one-reading',
    (d) =>
      `${d.beginReadings('is', 'are')} claimed by set-up ${d.text('one')} and by set-up ${d.text('other')} for one and the same minute, ${d.text('tested')}. Take one of the two out, or give each its own time.`,
  ),
};
