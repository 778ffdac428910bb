/** Cells of `inspection` blocks: what was seen of the end faces. */
import type { Value } from '../../../grammar/src/bound.ts';
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import { type RowsBlock, rowsOf } from './evidence-rows.ts';
import { entriesOf } from './like.ts';
import { firstOf } from './lines.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { InspectionCell } from './types.ts';
import { nameOf, placeIn } from './values.ts';

const words: readonly string[] = [
  C.pass,
  C.fail,
  C.cleaned,
] satisfies readonly InspectionCell['seen'][];

const isSeen = (word: string | undefined): word is InspectionCell['seen'] =>
  word !== undefined && words.includes(word);

/** In its own words, or by name with the edition it follows. */
function criterionOf(value: Value | undefined, scope: Scope): string | undefined {
  const text = value && nameOf([value]);
  const declared = value?.kind === 'name' ? resolve(W.criterion, value, scope) : undefined;
  if (!declared) return text;
  const edition = firstOf(entriesOf(declared, scope).lines, W.edition);
  const title = nameOf(edition?.entry.slots.title);
  return title === undefined ? text : `${text} (${title})`;
}

export function gatherInspections(of: RowsBlock, scope: Scope, into: InspectionCell[]): void {
  const { object, block, head, rows } = of;
  const criterion = criterionOf(
    head.entries.find(({ word }) => word === W.criterion)?.slots.text?.[0],
    scope,
  );
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
        criterion,
        at,
        by,
        remark,
        place,
        row: row.place,
      });
    }
  }
}
