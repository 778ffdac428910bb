import { type Check, noticed } from './check.ts';
import { repaired } from './rise-after-repair.ts';

export const readingBeforeRepairMissing: Check = {
  name: 'reading-before-repair-missing',
  kind: 'note',
  severity: 'note',
  title: 'A repaired fibre has no valid reading from before',
  explanation:
    'After a repair the rise over the last valid reading before it shows whether the new splices are good. Without such a reading, by the same method, only the new limit judges the fibre. Enter the readings of the acceptance, if there are any.',
  source: 'Our own rule.',
  bad: repaired('1  1.05  0.92').replace('1  0.71  0.62', '1  -     -'),
  good: repaired('1  1.05  0.92'),
  link: noticed(
    'reading-before-repair-missing',
    (d) =>
      `${d.readings} after repair ${d.text('repair')} of ${d.text('on')} ${d.number('readings') === 1 ? 'has' : 'have'} no valid one before it to be compared with, so only the new limit judges. Enter what was measured before the repair, if anything was.`,
  ),
};
