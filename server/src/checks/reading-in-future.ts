import type { ReadingCell } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

/** Readings dated after the instant of judgement: once for each block they stand in. */
function* find({ evidence, asOf }: LinkContext): Iterable<Found> {
  const blocks = new Map<number, ReadingCell[]>();
  for (const cell of evidence.readings) {
    if (cell.at.from <= asOf) continue;
    const block = blocks.get(cell.place.block);
    if (block) block.push(cell);
    else blocks.set(cell.place.block, [cell]);
  }
  for (const cells of blocks.values()) {
    const [first] = cells;
    if (!first) continue;
    yield {
      place: first.at.place,
      message:
        `${cells.length === 1 ? 'One reading' : `${cells.length} readings`} of ${first.object} ${cells.length === 1 ? 'is' : 'are'} dated ${first.at.text}, later than the time of judgement. ` +
        'Look at the year and the day, at the clock of the instrument, and at the zone of the plan.',
      details: { object: first.object, readings: cells.length, tested: first.at.text },
    };
  }
}

const plan = (year: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup
      .replaceAll('taken       2026', `taken       ${year}`)
      .replaceAll('due 2027', 'due 2030'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80').replace('2026-03', `${year}-03`),
  );

export const readingInFuture: Check = {
  name: 'reading-in-future',
  kind: 'note',
  severity: 'warning',
  title: 'A reading is dated later than now',
  explanation:
    'Nothing was measured tomorrow. Either the date is mistyped, or the clock of the instrument or of this computer is wrong, and then the order of references, readings and work may be wrong as well. Where a plan is judged as of an earlier day on purpose, the note says what was not there yet.',
  source: 'Our own rule.',
  bad: plan('2029'),
  good: plan('2026'),
  link: find,
};
