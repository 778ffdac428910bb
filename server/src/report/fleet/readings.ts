/** A row for every reading made, in every attempt, and for every reading still to make. */
import { toMetres } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult } from '../../evaluate/result.ts';
import type { Setup } from '../../model/types.ts';
import { isTree, placeName } from '../../model/ways.ts';
import { readingJson } from '../json.ts';
import type { ReadingJson } from '../schema.ts';
import { type FleetPlan, type OfPlan, planColumns } from './plan.ts';
import { type Column, type ColumnKind, column, type Table, tableOf } from './table.ts';

interface Row extends OfPlan, Judged {
  readonly result: LinkResult;
  readonly reading: ReadingResult;
  readonly setup: Setup | undefined;
}

export function readingsTable(from: FleetPlan): Table {
  const rows = from.links.flatMap((result) =>
    [...result.readings, ...result.reflectances].map(
      (reading): Row => ({
        from,
        result,
        reading,
        json: readingJson(result.link.name, reading),
        setup: reading.setup ? from.plan.setup(reading.setup) : undefined,
        place: reading.reading?.place,
      }),
    ),
  );
  return tableOf(readingColumns, rows);
}

const minutesOfDay = 1440;

/** Whole days from the latest minute at which something may have been done until the plan was judged. */
export function daysSince(minute: number | undefined, { plan }: FleetPlan): number | undefined {
  return minute === undefined ? undefined : Math.floor((plan.minute - minute) / minutesOfDay);
}

/** What a reading came to, as its result alone says it. */
export interface Judged {
  readonly json: ReadingJson;
}

function ofJson(name: keyof ReadingJson, kind: ColumnKind, says: string): Column<Judged> {
  return column(name, kind, says, ({ json }) => json[name]);
}

function fibreOf({ result, reading }: Row) {
  return result.fibres.find(({ fibre }) => fibre === reading.fibre);
}

export const judgedColumns: readonly Column<Judged>[] = [
  ofJson('object', 'text', 'link, channel, ring or cable that was read'),
  ofJson('fibre', 'whole', 'number of its fibre; of a tree, of its end'),
  ofJson('wavelength_nm', 'number', 'of the light, in nm'),
  ofJson('direction', 'text', 'way of the light, A>B or B>A; null: not said'),
  ofJson('attempt', 'whole', '1 for the first; null: expected and not made'),
  ofJson('setup', 'text', 'set-up that it was read with'),
  ofJson('time', 'text', 'when it was read, as it was written'),
  ofJson('reference_dbm', 'number', 'power of the reference that it was taken from, in dBm'),
  ofJson('power_dbm', 'number', 'power read, in dBm; null: a loss was typed'),
  ofJson('loss_db', 'number', 'loss in dB, positive; null: not known'),
  ofJson('limit_db', 'number', 'limit that governs, in dB; of a return loss, the least'),
  ofJson('margin_db', 'number', 'what is left to the limit, in dB; below zero: beyond it'),
  ofJson('uncertainty_db', 'number', 'expanded, k = 2, in dB; 0: none was stated'),
  ofJson('verdict', 'text', 'one of the nine verdicts'),
  ofJson('current', 'flag', 'whether it stands for its fibre, wavelength and direction'),
  ofJson('limit_kind', 'text', 'components, application or contract'),
  ofJson('limit_name', 'text', 'set of limits, application with its row, or line of the contract'),
  ofJson('limit_trust', 'text', 'recalled: a figure in it is from memory; null: not said'),
  ofJson(
    'reason',
    'text',
    'in one word, why it is invalid, stale, not judged, conceded or untested',
  ),
  ofJson('because', 'text', 'the same as a sentence'),
  ofJson('quantity', 'text', 'loss, power or reflectance: what was typed'),
  ofJson('reflectance_db', 'number', 'negative, as it was read, in dB'),
  ofJson('residual_db', 'number', 'loss less what its parts typically lose, in dB'),
  ofJson(
    'mates_deviation',
    'number',
    'distance from its mates’ median, in median absolute deviations',
  ),
];

export const readingColumns: readonly Column<Row>[] = [
  ...judgedColumns,
  column('expected', 'flag', 'whether the plan asks for it', ({ reading }) => reading.expectedSet),
  column(
    'no_light',
    'flag',
    'no light was seen',
    ({ reading }) => reading.reading?.typed === 'dark',
  ),
  column(
    'earliest',
    'minute',
    'first minute at which it may have been read',
    ({ reading }) => reading.reading?.at.from,
  ),
  column(
    'latest',
    'minute',
    'last minute at which it may have been read',
    ({ reading }) => reading.reading?.at.to,
  ),
  column('age_days', 'whole', 'whole days from then until as_of', ({ reading, from }) =>
    daysSince(reading.reading?.at.to, from),
  ),
  column('tested_by', 'text', 'who read it', ({ reading }) => reading.reading?.by),
  column('remark', 'text', 'as it was typed', ({ reading }) => reading.reading?.remark),
  column(
    'method',
    'text',
    'cords in the reference: one-cord, two-cord, three-cord',
    ({ reading }) => reading.method,
  ),
  column('source', 'text', 'instrument that sent the light', ({ setup }) => setup?.source?.text),
  column('meter', 'text', 'instrument that received it', ({ setup }) => setup?.meter?.text),
  column('object_kind', 'text', 'link, channel, ring or section', ({ result }) => result.link.kind),
  column('title', 'text', 'of the object', ({ result }) => result.link.title),
  column(
    'end',
    'text',
    'port of that end of a tree; null: the object is none',
    ({ result, reading }) => (isTree(result.link) ? placeName(result.link, reading.fibre) : null),
  ),
  column('port_a', 'text', 'port of the fibre at end A', (row) => fibreOf(row)?.fromPort),
  column('port_b', 'text', 'port of the fibre at end B', (row) => fibreOf(row)?.toPort),
  column(
    'mode',
    'text',
    'multimode, single-mode or plastic; null: mixed or not known',
    ({ result }) => result.link.mode,
  ),
  column('length_m', 'number', 'of the object, in m; null: a part has none', ({ result }) =>
    result.length === undefined ? null : toMetres(result.length),
  ),
  ...planColumns,
];
