/** Cells of `inspection` blocks: what was seen of the end faces. */
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import { gradedBy } from './criterion.ts';
import { type RowsBlock, rowsOf } from './evidence-rows.ts';
import type { Scope } from './scope.ts';
import type { InspectionCell } from './types.ts';
import { placeIn } from './values.ts';

const words: readonly string[] = [
  C.pass,
  C.fail,
  C.cleaned,
] satisfies readonly InspectionCell['seen'][];

const isSeen = (word: string | undefined): word is InspectionCell['seen'] =>
  word !== undefined && words.includes(word);

export function gatherInspections(of: RowsBlock, scope: Scope, into: InspectionCell[]): void {
  const { object, block, head, rows } = of;
  const graded = gradedBy(head.entries, block, scope);
  const sides = [
    { side: 'A', column: of.column(W.endA) },
    { side: 'B', column: of.column(W.endB) },
  ] as const;
  for (const row of rowsOf(of, scope)) {
    const { number, fibre, end, at, by, remark } = row;
    for (const { side, column } of sides) {
      const seen = rows.words(number, column);
      if (!isSeen(seen)) continue;
      const place = placeIn(block, rows.span(number, column));
      into.push({
        object,
        fibre,
        end,
        side,
        seen,
        ...graded,
        at,
        by,
        remark,
        place,
        row: row.place,
      });
    }
  }
}
