import { type Check, noticed } from './check.ts';
import { example, readings, singleModePlan, singleModeSetup } from './examples.ts';

/** A link with a repair in its first fibre; readings before and after it. */
export function repaired(...after: readonly string[]): string {
  return example(
    singleModePlan,
    `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     800 m OS2
  connector   LC
  reserve     repairs 1
  repair REP-1 {
    fibres      1
    on          2026-03-15
    splice      fusion
    segment     20 m OS2
    splice      fusion
  }
}
`,
    singleModeSetup.replaceAll('}\n', ''),
    `  taken       2026-03-16 08:20 1310 nm -3.12 dBm
  taken       2026-03-16 08:20 1550 nm -3.40 dBm
}
`,
    readings('SM-1', '1310 nm A>B, 1550 nm A>B', ['1  0.71  0.62', '2  0.68  0.57']),
    readings('SM-1', '1310 nm A>B, 1550 nm A>B', after).replaceAll('2026-03-14', '2026-03-16'),
  );
}

export const riseAfterRepair: Check = {
  name: 'rise-after-repair',
  kind: 'note',
  severity: 'error',
  title: 'A repaired fibre lost more than what was put in allows',
  explanation:
    'A repaired fibre has two criteria. The new limit holds for the path as it is now, and the rise over the last valid reading before the repair is at most the allowances of what was put in: its splices and its fibre. The rise is compared plainly, without uncertainty. A link far below its limit could otherwise hide a bad splice.',
  source:
    'Rule-derived; that a repaired fibre is compared with its own record from before is common practice in outside plant, no source.',
  bad: repaired('1  1.55  1.42'),
  good: repaired('1  1.05  0.92'),
  link: noticed(
    'rise-after-repair',
    (d) =>
      `${d.Key} lost ${d.db('loss')}, ${d.db('rise')} more than the ${d.db('before')} before ${d.text('repairs')}; what was put in allows ${d.db('allowed')}. Look at the splices of the repair, and for a bend in its closure.`,
  ),
};
