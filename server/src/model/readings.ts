/** Cells of `readings` blocks: losses and powers, lengths, and the ports at which light was seen. */
import { microDb, microDbm, micrometres } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import { type EvidenceRow, type ReadingColumn, type RowsBlock, rowsOf } from './evidence-rows.ts';
import type { Measured } from './rows.ts';
import type { Scope } from './scope.ts';
import type { Absence, LengthCell, ReadingCell, SeenCell } from './types.ts';
import { placeIn } from './values.ts';

export interface ReadingsGathered {
  readonly readings: ReadingCell[];
  readonly absences: Absence[];
  readonly lengths: LengthCell[];
  readonly seen: SeenCell[];
}

export function gatherReadings(of: RowsBlock, scope: Scope, into: ReadingsGathered): void {
  const [seenAt, lengthAt] = [of.column(W.seen), of.column(W.length)];
  // Light that was sent from B alone comes out at A.
  const fromB = of.readings.some(({ direction }) => direction === 'B>A');
  const side = fromB && of.readings.every(({ direction }) => direction === 'B>A') ? 'A' : 'B';
  for (const row of rowsOf(of, scope)) {
    const { object, block, rows } = of;
    const { number, fibre, end, at } = row;
    const seen = rows.words(number, seenAt);
    if (seen !== undefined) {
      const place = placeIn(block, rows.span(number, seenAt));
      into.seen.push({ object, fibre, end, port: seen, side, at, place });
    }
    for (const column of of.readings) readCell(of, row, column, seen, into);
    const length = rows.measured(number, lengthAt);
    if (length?.kind === 'quantity' && length.dimension === W.length) {
      into.lengths.push({
        object,
        fibre,
        end,
        length: micrometres(length.base),
        wavelength: of.readings[0]?.wavelength,
        from: 'reading',
        setup: of.setup(undefined),
        at,
        place: placeIn(block, rows.span(number, lengthAt)),
        row: row.place,
      });
    }
  }
}

function readCell(
  { object, block, rows }: RowsBlock,
  row: EvidenceRow,
  column: ReadingColumn,
  seen: string | undefined,
  into: ReadingsGathered,
): void {
  const { fibre, end, at, by, remark } = row;
  const { wavelength, direction, quantity, setup } = column;
  const measured = rows.measured(row.number, column.column);
  if (!measured || (measured.kind === 'absent' && remark === undefined)) return;
  const place = placeIn(block, rows.span(row.number, column.column));
  if (measured.kind === 'absent') {
    into.absences.push({ object, fibre, wavelength, direction, remark, place });
    return;
  }
  into.readings.push({
    object,
    fibre,
    ...(end !== undefined && { end }),
    quantity,
    wavelength,
    direction,
    ...typedOf(measured, column),
    setup,
    at,
    by,
    seen,
    remark,
    place,
    row: row.place,
    order: into.readings.length,
  });
}

function typedOf(
  measured: Exclude<Measured, { kind: 'absent' }>,
  { quantity, negative }: ReadingColumn,
): Pick<ReadingCell, 'typed' | 'loss' | 'power' | 'reflectance'> {
  if (measured.kind === 'dark') return { typed: K.dark };
  const { digits, unit, dimension, base } = measured;
  const typed = { digits, unit };
  // Zero has no sign: -0 would be shown as one.
  const signed = negative && base !== 0 ? -base : base;
  if (quantity === C.loss && dimension === 'loss') return { typed, loss: microDb(signed) };
  if (quantity === C.power && dimension === 'power') return { typed, power: microDbm(signed) };
  if (quantity === C.reflectance && dimension === 'loss') {
    return { typed, reflectance: microDb(signed) };
  }
  return { typed };
}
