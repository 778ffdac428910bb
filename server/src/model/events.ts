/** Cells of `events` blocks: what a reflectometer saw along a fibre, and how long the fibre was by its trace. */
import { microDb, micrometres } from '../../../grammar/src/quantity/index.ts';
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import { type RowsBlock, rowsOf } from './evidence-rows.ts';
import type { Scope } from './scope.ts';
import type { EventCell, LengthCell } from './types.ts';
import { nameOf, placeIn } from './values.ts';

export interface EventsGathered {
  readonly events: EventCell[];
  readonly lengths: LengthCell[];
}

const kinds: readonly string[] = [
  C.connector,
  C.splice,
  C.bend,
  C.splitter,
  C.reflection,
  C.end,
] satisfies readonly EventCell['kind'][];

const isKind = (word: string): word is EventCell['kind'] => kinds.includes(word);

/** A row without a distance or a kind is no event; checking the block says so. */
export function gatherEvents(of: RowsBlock, scope: Scope, into: EventsGathered): void {
  const { object, block, head, rows } = of;
  const [atColumn, kindColumn] = [of.column(W.at), of.column(W.kind)];
  const trace = head.entries.flatMap((entry) =>
    entry.word === W.trace ? (nameOf(entry.slots.file) ?? []) : [],
  );
  for (const row of rowsOf(of, scope)) {
    const { number, fibre, end, at, by, remark } = row;
    const position = rows.measured(number, atColumn);
    const kind = rows.words(number, kindColumn);
    if (position?.kind !== 'quantity' || position.dimension !== W.length) continue;
    if (kind === undefined || !isKind(kind)) continue;
    // Distances count from end A: checking the block says where one does not.
    if (position.base < 0) continue;
    const distance = micrometres(position.base);
    if (kind === C.end) {
      into.lengths.push({
        object,
        fibre,
        end,
        length: distance,
        wavelength: of.readings[0]?.wavelength,
        from: W.trace,
        setup: of.readings[0]?.setup ?? of.setup(undefined),
        at,
        place: placeIn(block, rows.span(number, atColumn)),
        row: row.place,
      });
    }
    for (const { column, wavelength, direction, quantity, setup, negative } of of.readings) {
      const measured = rows.measured(number, column);
      if (measured?.kind !== 'quantity' || measured.dimension !== 'loss') continue;
      if (quantity === C.power) continue;
      const { base, digits, unit } = measured;
      into.events.push({
        object,
        fibre,
        end,
        distance,
        kind,
        quantity,
        wavelength,
        direction,
        typed: { digits, unit },
        value: microDb(negative && base !== 0 ? -base : base),
        setup,
        trace,
        at,
        by,
        remark,
        place: placeIn(block, rows.span(number, column)),
        row: row.place,
      });
    }
  }
}
