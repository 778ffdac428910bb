/** What of the text differs and says nothing else: layout, order, comments, other units for the same value. */
import type { Edit } from '../types.ts';
import type { Unlike } from './blocks.ts';
import { type HeldBlock, placeIn, type Sides } from './side.ts';

/** One edit for all of it, or none; `told` are blocks of which something else was told. */
export function textEdit(
  { before, after, relaid, reordered }: Unlike,
  told: ReadonlySet<HeldBlock>,
  sides: Pick<Sides, 'before' | 'after'>,
  spelt: (text: string) => string,
): Edit | undefined {
  const old = [...before.filter((block) => !told.has(block)), ...relaid.map((pair) => pair.before)];
  const now = [...after.filter((block) => !told.has(block)), ...relaid.map((pair) => pair.after)];
  // A line that only names something by its new name is told with that name.
  const oldLines = old.flatMap((block) => linesOf(block).map(spelt));
  const lines = unlike(oldLines, now.flatMap(linesOf));
  const comments = unlike(before.flatMap(commentsOf).map(spelt), after.flatMap(commentsOf));
  // Equal lines in another order; where even that is equal, empty lines are all.
  const remarks = comments > 0;
  const sameOrder = oldLines.join('\n') === now.flatMap(linesOf).join('\n');
  const whole = (block: HeldBlock) => linesOf(block).map(spelt).join('\n');
  const order = lines === 0 && !sameOrder ? unlike(old.map(whole), now.map(whole)) : 0;
  const turned = reordered.length + (lines === 0 && !sameOrder && order === 0 ? now.length : 0);
  const empty = lines === 0 && sameOrder && !remarks ? Math.max(old.length, now.length) : 0;
  const count = Math.max(lines, comments, order);
  if (count === 0 && turned === 0 && (empty === 0 || told.size > 0)) return undefined;

  const places = [...now, ...reordered];
  const first = places[0];
  const firstOld = old[0];
  const files = new Set([...old, ...places].map(({ path }) => path));
  const said = [
    lines > 0 && counted(lines, 'line'),
    comments > 0 && counted(comments, 'comment'),
    order > 0 && `lines of ${counted(order, 'declaration')} in another order`,
    count === 0 && turned === 0 && 'empty lines',
    turned > 0 && `${counted(turned, 'declaration')} in another order`,
  ].filter(Boolean);
  const span = { start: 0, end: 0 };
  const placeBefore = firstOld && placeIn(sides.before, { block: firstOld, span });
  const placeAfter = first && placeIn(sides.after, { block: first, span });
  return {
    kind: 'text',
    form: 'changed',
    subject: 'layout, order and comments',
    note: `${said.join(', ')}${files.size > 0 ? ` in ${counted(files.size, 'file')}` : ''}: no engineering change.`,
    ...(placeBefore && { before: placeBefore }),
    ...(placeAfter && { after: placeAfter }),
    blocks: {
      ...(firstOld && { before: firstOld.view.id }),
      ...(first && { after: first.view.id }),
    },
    reach: [],
    count: Math.max(count, turned, 1),
  };
}

const linesOf = ({ view }: HeldBlock): string[] =>
  view.text.split('\n').filter((line) => !/^\s*(#.*)?$/u.test(line));

const commentsOf = ({ view }: HeldBlock): string[] =>
  view.bound().tree.comments.map(({ span }) => view.text.slice(span.start, span.end).trim());

/** How many of two lists are in one of them only: the greater of both sides. */
function unlike(before: readonly string[], after: readonly string[]): number {
  const counts = new Map<string, number>();
  for (const text of before) counts.set(text, (counts.get(text) ?? 0) + 1);
  let fresh = 0;
  for (const text of after) {
    const left = counts.get(text) ?? 0;
    if (left > 0) counts.set(text, left - 1);
    else fresh++;
  }
  const gone = [...counts.values()].reduce((sum, count) => sum + count, 0);
  return Math.max(gone, fresh);
}

const counted = (count: number, what: string): string =>
  `${count} ${what}${count === 1 ? '' : 's'}`;
