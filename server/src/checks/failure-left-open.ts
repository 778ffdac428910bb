import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { fibresInWords } from './figures.ts';

const MINUTES_PER_DAY = 1440;

/** Days after which nobody has begun. Common practice, no source. */
const DAYS = 90;

const plan = (row: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replaceAll('2026-03-14', '2026-02-14'),
    multimodeReadings(row, '2  1.08  0.80').replaceAll('2026-03-14', '2026-02-14'),
  );

/** Fails that stand: work would have aged them, a retest superseded, a concession accepted. */
function* find({ link, result, asOf }: LinkContext): Iterable<Found> {
  const open = result.fibres.flatMap(({ fibre, current }) =>
    current.flatMap(({ verdict, reading }) =>
      verdict === 'fail' && reading && asOf - reading.at.to >= DAYS * MINUTES_PER_DAY
        ? [{ fibre, at: reading.at }]
        : [],
    ),
  );
  const [first] = [...open].sort((a, b) => a.at.to - b.at.to);
  if (!first) return;
  const fibres = [...new Set(open.map(({ fibre }) => fibre))];
  const days = Math.floor((asOf - first.at.to) / MINUTES_PER_DAY);
  yield {
    place: link.namePlace,
    message: `What failed on ${fibresInWords(fibres)} of ${link.name} has been open for ${days} days: no work, no retest and no concession since ${first.at.text}. Clean or repair and measure again, or let somebody decide.`,
    details: { link: link.name, fibres: fibres.length, days },
  };
}

export const failureLeftOpen: Check = {
  name: 'failure-left-open',
  kind: 'note',
  severity: 'warning',
  title: 'Nothing was done about a reading that failed',
  explanation:
    'A fail is where work begins: clean and measure again, find the joint, mend it, or let somebody with the right to do so accept it in writing. One that stands for three months with neither is forgotten more often than postponed, and is found at hand-over. Work is a work block with its day, a retest is a new reading, a decision is a concession.',
  source: 'Common practice, no source: open items are followed up; ninety days are ours.',
  bad: plan('1  2.31  0.84'),
  good: plan('1  1.12  0.84'),
  link: find,
};
