/**
 * Rows of tables that both sides changed: cells are taken by their heading. What
 * two people measured of one key stays as two readings, the second in a table of
 * its own; a cell that says anything else can only be one of two, and is a conflict.
 */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Cell, Leaf } from './nodes.ts';
import { namesRow } from './nodes.ts';

const untold = '-';

/** Who measured, when, and what was said of it: holds for all cells of a row. */
const ofWholeRow: ReadonlySet<string> = new Set([W.time, W.by, W.remark, W.seen, W.kind]);

const isOfWholeRow = (heading: string): boolean => ofWholeRow.has(heading.split(' ')[0]!);

/** One row of both; `beside` is what of theirs has to stand in a table of its own. */
export interface MergedRow {
  readonly row: Leaf;
  readonly beside?: Leaf;
}

/** Two rows of evidence of one key that both say something else than before. */
export function mergeEvidenceRow(base: Leaf, ours: Leaf, theirs: Leaf): MergedRow {
  const [our, their] = [changed(base, ours), changed(base, theirs)];
  const differ = (at: number) => cell(ours, at) !== cell(theirs, at);
  const both = [...their].filter((at) => our.has(at) && differ(at));
  const measured = (places: ReadonlySet<number>) =>
    [...places].some((at) => !isOfWholeRow(theirs.headings[at] ?? ''));
  // Another name or time behind the cells of one side would speak for those of the other.
  const speaks = (places: ReadonlySet<number>) =>
    [...places].some((at) => isOfWholeRow(theirs.headings[at] ?? '') && differ(at));
  const apart =
    both.some((at) => isOfWholeRow(theirs.headings[at] ?? '')) ||
    (measured(our) && measured(their) && (speaks(our) || speaks(their)));
  const taken = apart ? [] : [...their].filter((at) => !both.includes(at));
  const left = apart ? [...their].filter(differ) : both;
  const row = withCells(ours, new Map(taken.map((at) => [at, cell(theirs, at)])));
  return left.length === 0 ? { row } : { row, beside: onlyCells(theirs, new Set(left)) };
}

/** Two rows of a declaration; undefined where both say something else of one cell. */
export function mergeDeclaredRow(base: Leaf, ours: Leaf, theirs: Leaf): Leaf | undefined {
  const [our, their] = [changed(base, ours), changed(base, theirs)];
  for (const at of their) {
    if (our.has(at) && cell(ours, at) !== cell(theirs, at)) return undefined;
  }
  if (commentOf(ours) !== commentOf(theirs) && commentOf(theirs) !== commentOf(base)) {
    return undefined;
  }
  return withCells(ours, new Map([...their].map((at) => [at, cell(theirs, at)])));
}

/** What a row says that its base did not say, for a table of its own: all else of it is not told. */
export function ownOfRow(base: Leaf | undefined, row: Leaf): Leaf | undefined {
  const old = base && recast(base, row.headings);
  if (!old) return row;
  const own = changed(old, row);
  return own.size === 0 ? undefined : onlyCells(row, own);
}

/** What the cells of a row say; a remark that is left out says as much as one that is not there. */
export function toldIn({ cells }: Leaf): string {
  const told = cells.map(({ text }) => text);
  while (told.at(-1) === untold) told.pop();
  return told.join('\t');
}

/** The row under other headings; undefined where it tells something that has none of them. */
export function recast(row: Leaf, headings: readonly string[]): Leaf | undefined {
  if (row.headings.join('\t') === headings.join('\t')) return row;
  const told = new Map(row.headings.map((heading, at) => [heading, cell(row, at)]));
  const isLost = [...told].some(
    ([heading, text]) => text !== untold && !headings.includes(heading),
  );
  if (isLost || told.size !== row.headings.length || row.cells.length > row.headings.length) {
    return undefined;
  }
  // What has a heading still stands where it stood.
  const cells = headings.map((heading): Cell => {
    const old = row.cells[row.headings.indexOf(heading)];
    return old ?? { text: untold, start: 0, end: 0 };
  });
  const same = new Map(cells.map(({ text }, at) => [at, text]));
  return withCells({ ...row, cells, headings }, same, commentOf(row));
}

/** Places of cells that say something else than the base. */
function changed(base: Leaf, row: Leaf): ReadonlySet<number> {
  const longest = Math.max(base.cells.length, row.cells.length);
  const places = new Set<number>();
  for (let at = 0; at < longest; at++) if (cell(base, at) !== cell(row, at)) places.add(at);
  return places;
}

/** A last remark may be left out. */
const cell = (row: Leaf, at: number): string => row.cells[at]?.text ?? untold;

/** A row with only these cells told, beside those that say of what, by whom and when it is. */
function onlyCells(row: Leaf, kept: ReadonlySet<number>): Leaf {
  const cleared = row.headings.flatMap((heading, at): [number, string][] =>
    kept.has(at) || namesRow(heading) || isOfWholeRow(heading) || at >= row.cells.length
      ? []
      : [[at, untold]],
  );
  return withCells(row, new Map(cleared));
}

/** The row with other cells, each where it stood as far as they have room. */
export function withCells(
  row: Leaf,
  cells: ReadonlyMap<number, string>,
  comment = commentOf(row),
): Leaf {
  if (cells.size === 0) return row;
  const [line = ''] = row.lines;
  let text = line.slice(0, row.cells[0]?.start ?? line.length);
  const placed: Cell[] = [];
  const last = Math.max(row.cells.length - 1, ...cells.keys());
  for (let at = 0; at <= last; at++) {
    const old = row.cells[at];
    const said = cells.get(at) ?? old?.text ?? untold;
    const start = Math.max(old?.start ?? 0, at === 0 ? 0 : text.trimEnd().length + 2);
    text = at === 0 ? text : text.trimEnd().padEnd(start);
    placed.push({ text: said, start: text.length, end: text.length + said.length });
    text += said;
  }
  const content = [...placed.map((each) => each.text), ...(comment === '' ? [] : [comment])];
  return {
    ...row,
    lines: [comment === '' ? text : `${text}  ${comment}`],
    content: content.join('\t'),
    cells: placed,
    made: true,
  };
}

const commentOf = (row: Leaf): string =>
  (row.lines[0] ?? '').slice(row.cells.at(-1)?.end ?? 0).trim();
