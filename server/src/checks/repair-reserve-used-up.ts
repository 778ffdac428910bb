import { type Check, noticed } from './check.ts';
import { repaired } from './rise-after-repair.ts';

const second = `  repair REP-2 {
    fibres      1
    on          2026-03-15
    splice      fusion
  }
}
`;

export const repairReserveUsedUp: Check = {
  name: 'repair-reserve-used-up',
  kind: 'doubt',
  severity: 'warning',
  title: 'More repairs than were held in reserve',
  explanation:
    'The power budget holds back loss for a number of repairs, of two splices each. A fibre that has had more of them uses margin that was meant for something else. Say a new reserve, or plan to replace the cable.',
  source: 'Common practice, no source: repair splices are reserved in outside-plant budgets.',
  bad: repaired('1  1.05  0.92').replace('  }\n}\n', `  }\n${second}`),
  good: repaired('1  1.05  0.92'),
  link: noticed(
    'repair-reserve-used-up',
    (d) =>
      `A fibre of ${d.text('link')} has had ${d.number('used')} repairs, and ${d.number('reserved')} ${d.number('reserved') === 1 ? 'was' : 'were'} held in reserve. Say a new reserve, or plan to replace the cable.`,
  ),
};
