/** A row for every reference of a set-up, taken or checked, with what it moved by since it was taken. */
import {
  microDb,
  microToNumber,
  type Picometres,
  toNanometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { Setup, SetupEvent } from '../../model/types.ts';
import { type FleetPlan, type OfPlan, planColumns } from './plan.ts';
import { daysSince } from './readings.ts';
import { type Column, column, type Table, tableOf } from './table.ts';

type Power = Extract<SetupEvent, { kind: 'taken' | 'checked' }>;

interface Row extends OfPlan {
  readonly setup: Setup;
  readonly event: Power;
  /** What it is compared with: the last one taken at its wavelength. */
  readonly taken: Power | undefined;
}

export function referencesTable(from: FleetPlan): Table {
  const names = new Set(from.plan.named('setup').map(({ name }) => name));
  const rows = [...names].flatMap((name) => {
    const setup = from.plan.setup(name);
    return setup ? rowsOf(from, setup) : [];
  });
  return tableOf(referenceColumns, rows);
}

function rowsOf(from: FleetPlan, setup: Setup): readonly Row[] {
  const taken = new Map<Picometres, Power>();
  return setup.events.flatMap((event): Row[] => {
    if (event.kind !== 'taken' && event.kind !== 'checked') return [];
    const row = { from, setup, event, taken: taken.get(event.wavelength), place: event.place };
    if (event.kind === 'taken') taken.set(event.wavelength, event);
    return [row];
  });
}

export const referenceColumns: readonly Column<Row>[] = [
  column('setup', 'text', 'set-up whose reference it is', ({ setup }) => setup.name),
  column(
    'event',
    'text',
    'taken, or checked against the one taken before',
    ({ event }) => event.kind,
  ),
  column('wavelength_nm', 'number', 'of the light, in nm', ({ event }) =>
    toNanometres(event.wavelength),
  ),
  column('power_dbm', 'number', 'in dBm', ({ event }) => microToNumber(event.power)),
  column(
    'taken_dbm',
    'number',
    'the one taken before it, in dBm; null: it is the first',
    ({ taken }) => taken && microToNumber(taken.power),
  ),
  column(
    'drift_db',
    'number',
    'what it moved by since, in dB; below zero: less light',
    ({ event, taken }) => taken && microToNumber(microDb(event.power - taken.power)),
  ),
  column(
    'minutes_since',
    'whole',
    'from the one taken before it, in minutes',
    ({ event, taken }) => taken && event.at.from - taken.at.from,
  ),
  column('source', 'text', 'instrument that sent the light', ({ setup }) => setup.source?.text),
  column('meter', 'text', 'instrument that received it', ({ setup }) => setup.meter?.text),
  column(
    'calibration_due',
    'minute',
    'last minute of the meter’s calibration; null: not said',
    ({ setup }) => setup.meter?.due?.to,
  ),
  column('method', 'text', 'cords in the reference', ({ setup }) => setup.reference),
  column(
    'earliest',
    'minute',
    'first minute at which it may have been done',
    ({ event }) => event.at.from,
  ),
  column(
    'latest',
    'minute',
    'last minute at which it may have been done',
    ({ event }) => event.at.to,
  ),
  column('age_days', 'whole', 'whole days from then until as_of', ({ event, from }) =>
    daysSince(event.at.to, from),
  ),
  ...planColumns,
];
