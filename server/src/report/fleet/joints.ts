/** A row for every joint that a trace shows, at one wavelength, with both directions beside each other. */
import {
  microToNumber,
  toMetres,
  toNanometres,
  toNumberDb,
} from '../../../../grammar/src/quantity/index.ts';
import type { EventResult, LinkResult } from '../../evaluate/result.ts';
import type { EventCell } from '../../model/types.ts';
import { type FleetPlan, type OfPlan, planColumns } from './plan.ts';
import { daysSince } from './readings.ts';
import { type Column, column, type Table, tableOf } from './table.ts';

interface Row extends OfPlan {
  readonly result: LinkResult;
  readonly event: EventResult;
  /** The later of its cells. */
  readonly cell: EventCell | undefined;
}

export function jointsTable(from: FleetPlan): Table {
  const rows = from.links.flatMap((result) =>
    result.events.map(
      (event): Row => ({ from, result, event, cell: latest(event), place: event.place }),
    ),
  );
  return tableOf(jointColumns, rows);
}

function latest({ forward, back }: EventResult): EventCell | undefined {
  if (!forward || !back) return forward ?? back;
  return back.at.to > forward.at.to ? back : forward;
}

const inDb = (cell: EventCell | undefined) => cell && microToNumber(cell.value);

/** What was seen from one end or the mean of both; each of the two must have been seen for a mean. */
function seenAs({ sum, forward, back }: EventResult): number | undefined {
  return sum === undefined ? inDb(forward ?? back) : microToNumber(sum) / 2;
}

export const jointColumns: readonly Column<Row>[] = [
  column('object', 'text', 'link, ring or cable that was traced', ({ result }) => result.link.name),
  column(
    'fibre',
    'whole',
    'number of its fibre; of a tree, of its end',
    ({ event }) => event.fibre,
  ),
  column(
    'kind',
    'text',
    'connector, splice, bend, splitter, reflection or end',
    ({ event }) => event.kind,
  ),
  column(
    'part',
    'text',
    'part of the path that it is taken for; null: none lies there',
    ({ event }) => event.part,
  ),
  column(
    'lies_at',
    'text',
    'where that part lies, as the plan says it: a closure, a rack; null: not said',
    ({ event }) => event.at,
  ),
  column('distance_m', 'number', 'from end A along the fibre, in m', ({ event }) =>
    toMetres(event.distance),
  ),
  column('wavelength_nm', 'number', 'of the light, in nm', ({ event }) =>
    toNanometres(event.wavelength),
  ),
  column('quantity', 'text', 'loss or reflectance', ({ event }) => event.quantity),
  column(
    'value_db',
    'number',
    'in dB: of a loss the mean of both directions where both were seen',
    ({ event }) => seenAs(event),
  ),
  column(
    'both_directions',
    'flag',
    'whether value_db is that mean',
    ({ event }) => event.sum !== undefined,
  ),
  column(
    'forward_db',
    'number',
    'seen from end A, in dB; below zero: a gain by unlike fibres',
    ({ event }) => inDb(event.forward),
  ),
  column('back_db', 'number', 'seen from end B, in dB', ({ event }) => inDb(event.back)),
  column('limit_db', 'number', 'of one such joint, in dB; null: none', ({ event }) =>
    event.limit?.value === undefined ? null : toNumberDb(event.limit.value),
  ),
  column('margin_db', 'number', 'what is left to it, in dB', ({ event }) =>
    event.margin === undefined ? null : toNumberDb(event.margin),
  ),
  column('verdict', 'text', 'one of the nine verdicts', ({ event }) => event.verdict),
  column(
    'because',
    'text',
    'why it is not judged, stale or invalid',
    ({ event }) => event.because || null,
  ),
  column('setup', 'text', 'set-up that it was traced with', ({ cell }) => cell?.setup),
  column('instrument', 'text', 'reflectometer, as its set-up names it', ({ cell, from }) => {
    const setup = cell && from.plan.setup(cell.setup);
    return setup?.source?.text ?? setup?.meter?.text;
  }),
  column('tested_by', 'text', 'who traced it', ({ cell }) => cell?.by),
  column(
    'earliest',
    'minute',
    'first minute at which it may have been traced',
    ({ cell }) => cell?.at.from,
  ),
  column(
    'latest',
    'minute',
    'last minute at which it may have been traced',
    ({ cell }) => cell?.at.to,
  ),
  column('age_days', 'whole', 'whole days from then until as_of', ({ cell, from }) =>
    daysSince(cell?.at.to, from),
  ),
  ...planColumns,
];
