import { type Check, noticed } from './check.ts';
import {
  example,
  soundTrace,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
  traces,
} from './examples.ts';

function agedInWords(events: number, faces: number, lengths: number): string {
  const parts = [
    [events, 'event'],
    [faces, 'end face'],
    [lengths, 'length'],
  ] as const;
  return parts
    .filter(([count]) => count > 0)
    .map(([count, noun]) => `${count} ${noun}${count === 1 ? '' : 's'}`)
    .join(', ');
}

export const evidenceAged: Check = {
  name: 'evidence-aged',
  kind: 'note',
  severity: 'note',
  title: 'Work came after traces, lengths or inspections',
  explanation:
    'Dated work changes what was seen before it: traces, measured lengths and end faces of the fibres it touched say nothing of the link as it is now. They stay as history and are made again.',
  source: 'Our own rule, as for readings: evidence ages by dated work only.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces('1  0    connector   0.31   0.28', '1  4.2  splice      0.05   0.09'),
    `work KQ-1 {
  done        re-spliced
  fibres      1
  on          2026-03-20
}
`,
  ),
  good: soundTrace,
  link: noticed(
    'evidence-aged',
    (d) =>
      `${agedInWords(d.number('events'), d.number('faces'), d.number('lengths'))} of ${d.text('object')} no longer count: ${d.text('because')}. Measure and inspect again.`,
  ),
};
