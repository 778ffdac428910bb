/** The bill of quantities as a table. */
import { toMetres } from '../../../../grammar/src/quantity/index.ts';
import { type FleetPlan, type OfPlan, planColumns } from '../fleet/plan.ts';
import { type Column, column, type Table, tableOf } from '../fleet/table.ts';
import { type BillLine, billOf, totalMetres } from './bill.ts';

interface Row extends OfPlan {
  readonly line: BillLine;
}

export function quantitiesTable(from: FleetPlan): Table {
  return tableOf(
    quantityColumns,
    billOf(from).map((line) => ({ from, line })),
  );
}

export const quantityColumns: readonly Column<Row>[] = [
  column(
    'item',
    'text',
    'cable, mated pair, fibre splice, place of splices, part, cord and so on',
    ({ line }) => line.item,
  ),
  column('what', 'text', 'kind of it, as the plan names it', ({ line }) => line.what),
  column(
    'each_m',
    'number',
    'length of one, in m; null: it has none, or none is said',
    ({ line }) => (line.each === undefined ? null : toMetres(line.each)),
  ),
  column('count', 'whole', 'number of pieces', ({ line }) => line.count),
  column('total_m', 'number', 'length of all of them, in m', ({ line }) => totalMetres(line)),
  column(
    'not_known',
    'whole',
    'pieces of which kind, length or place is not said',
    ({ line }) => line.unknown,
  ),
  column(
    'spare_fibres',
    'whole',
    'of cables: fibres that no link needs',
    ({ line }) => line.spareFibres,
  ),
  column('remark', 'text', 'what a piece is, and what to mind', ({ line }) => line.remark),
  column('used_by', 'text', 'cables, links, channels and repairs that it is for', ({ line }) =>
    line.of.join('; '),
  ),
  ...planColumns.filter(({ name }) => name !== 'file' && name !== 'line'),
];
