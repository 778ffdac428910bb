import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const staleReading: Check = {
  name: 'stale-reading',
  kind: 'note',
  severity: 'warning',
  title: 'Readings from before work on the path',
  explanation:
    'Cleaning, splicing, terminating or re-routing changes the path, so what was measured before it no longer describes the link: all wavelengths and directions of every fibre on the joints touched. Correcting a length or a name in the plan ages nothing.',
  source:
    'Common practice, no source: a re-spliced or re-terminated fibre is tested again (asked for in public fibre contracts).',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    `work KQ-1 {
  done        re-spliced
  fibres      1
  on          2026-03-15 10:20
}
`,
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'stale-reading',
    (d) =>
      `${begun(d.text('done'))} on ${d.text('on')}, after ${d.readings} of ${d.text('tested')}: the path they describe is not the one that is there. Measure again${d.number('timed') ? '' : '; if the work came first that day, write its time'}.`,
  ),
};

/** As a sentence begins. */
function begun(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
