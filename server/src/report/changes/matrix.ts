/** Verdicts before in rows, after in columns, and what they come to in words. */
import type { Comparison } from '../../compare/types.ts';
import { type Verdict, verdicts } from '../../evaluate/result.ts';
import { count, counted } from '../figures.ts';
import { moveOf } from './moves.ts';
import type { MatrixView, Piece } from './view.ts';

const order: readonly (Verdict | 'none')[] = [...verdicts, 'none'];

/** Undefined where nothing is measured and nothing is to be, in either state. */
export function matrixOf({ matrix }: Comparison): MatrixView | undefined {
  const counts = matrix.filter((cell) => cell.count > 0);
  if (counts.length === 0) return undefined;
  const rows = order.filter((each) => counts.some(({ before }) => before === each));
  // What stood before and stands no more has its column too, with zeros: the diagonal is whole.
  const columns = order.filter((each) =>
    counts.some(({ before, after }) => after === each || (before === each && each !== 'none')),
  );
  const at = (before: Verdict | 'none', after: Verdict | 'none') =>
    counts
      .filter((cell) => cell.before === before && cell.after === after)
      .reduce((sum, cell) => sum + cell.count, 0);
  const sum = (cells: readonly { readonly count: number }[]) =>
    cells.reduce((all, cell) => all + cell.count, 0);
  return {
    rows: rows.map((before) => ({
      before,
      cells: columns.map((after) => ({
        after,
        count: at(before, after),
        same: before === after,
      })),
      total: sum(counts.filter((cell) => cell.before === before)),
    })),
    columns: columns.map((after) => ({
      after,
      total: sum(counts.filter((cell) => cell.after === after)),
    })),
    total: sum(counts),
  };
}

/** `18 of 272 readings change verdict: 6 better, 12 worse.` and how many are to be made again. */
export function verdictSentence({ matrix, retest }: Comparison): readonly Piece[] {
  const moves = new Map<string, number>();
  for (const { before, after, count: cells } of matrix) {
    const move = moveOf(before, after);
    moves.set(move, (moves.get(move) ?? 0) + cells);
  }
  const of = (move: string) => moves.get(move) ?? 0;
  const all = matrix.reduce((sum, cell) => sum + cell.count, 0);
  const moved = of('better') + of('worse') + of('again');
  if (all === 0) return [{ text: 'Nothing is measured, nor to be measured, in either state.' }];
  const beside = [
    of('new') > 0 ? `${count(of('new'))} are new` : '',
    of('gone') > 0 ? `${count(of('gone'))} are gone` : '',
  ].filter(Boolean);
  const pieces: Piece[] = [];
  if (moved === 0) pieces.push({ text: 'No verdict changes' });
  else {
    pieces.push({ text: `${count(moved)} of ${counted(all, 'reading')} change verdict: ` });
    const parts: Piece[] = [];
    if (of('better') > 0) parts.push({ text: `${count(of('better'))} better` });
    if (of('worse') > 0) parts.push({ text: `${count(of('worse'))} worse`, strong: true });
    if (of('again') > 0) {
      const also = of('again') === retest.length ? ' and must be made again' : '';
      parts.push({ text: `${count(of('again'))} no longer count${also}`, strong: true });
    }
    parts.forEach((part, index) => {
      if (index > 0) pieces.push({ text: ', ' });
      pieces.push(part);
    });
  }
  if (beside.length > 0) pieces.push({ text: `; ${beside.join(', ')}` });
  if (retest.length > 0 && retest.length !== of('again')) {
    pieces.push({ text: '; ' });
    pieces.push({
      text: `${counted(retest.length, 'must', 'must')} be made again`,
      strong: true,
    });
  }
  return [...pieces, { text: '.' }];
}
