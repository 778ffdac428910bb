import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

/** Readings that nobody stands for: once for each block they stand in. */
function* find({ evidence }: LinkContext): Iterable<Found> {
  const told = new Set<number>();
  for (const { by, place, object } of evidence.readings) {
    if (by !== undefined || told.has(place.block)) continue;
    told.add(place.block);
    const count = evidence.readings.filter(
      (cell) => cell.by === undefined && cell.place.block === place.block,
    ).length;
    yield {
      place,
      message: `${count === 1 ? 'One reading' : `${count} readings`} of ${object} ${count === 1 ? 'does' : 'do'} not say who measured. A record names the tester: write by and the name behind tested.`,
      details: { readings: count },
    };
  }
}

const rows = multimodeReadings('1  1.12  0.84', '2  1.08  0.80');

export const testerUnnamed: Check = {
  name: 'tester-unnamed',
  kind: 'note',
  severity: 'note',
  title: 'Readings do not say who measured',
  explanation:
    'A record of acceptance names the person who held the meter, with the instruments and the day. Contracts refuse a sheet without it, and months later nobody else can be asked.',
  source: 'Public contracts and solicitations ask for the tester’s name (read).',
  bad: example(multimodePlan, multimodeLink, multimodeSetup, rows.replace(' by "R. Vale"', '')),
  good: example(multimodePlan, multimodeLink, multimodeSetup, rows),
  link: find,
};
