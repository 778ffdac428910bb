/**
 * The results table of the live page: only what is seen and 20 rows either side
 * exist, the rest is height. One stop in the tab order; keys move a row that is
 * known by its key, so that it stays the same row through every update.
 */
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Verdict } from '../../../../server/src/evaluate/result.ts';
import type { Layout } from '../../../../server/src/report/page/layout.ts';
import {
  FramedRow,
  KeyLine,
  TableGround,
  TableHead,
} from '../../../../server/src/report/page/table.tsx';
import type { TableView } from '../../../../server/src/report/question.ts';
import { lookOf } from '../../../../server/src/report/verdicts.ts';
import type {
  AtCursor,
  LinkRow,
  Results,
  Row,
  TextPlace,
} from '../../../../server/src/report/view.ts';
import type { Editor } from './editor.ts';
import { type Heights, heightsOf } from './heights.ts';
import { pressed } from './keys.ts';
import { Overview } from './overview.tsx';
import { type Column, hiddenColumns, sortedBy, Tools } from './tools.tsx';
import { useSight } from './window.ts';

interface TableProps {
  readonly editor: Editor;
  readonly results: Results;
  readonly view: TableView;
  readonly setView: (change: (now: TableView) => TableView) => void;
  readonly layout: Layout;
  /** Columns that are not shown. */
  readonly columns: readonly Column[];
  readonly setColumns: (columns: readonly Column[]) => void;
  readonly cursor: AtCursor;
  /** Row of a reading that is pointed at elsewhere on the page. */
  readonly pointed: string | undefined;
  readonly show: (place: TextPlace) => void;
  readonly select: (object: string) => void;
  readonly tally: (verdict: Verdict) => void;
  /** Tells which rows are in sight, so that the next answer brings them. */
  readonly seen: (from: number, to: number) => void;
}

export function ResultsTable(props: TableProps) {
  const {
    editor,
    results,
    view,
    setView,
    layout,
    cursor,
    show,
    select,
    seen,
    columns,
    setColumns,
  } = props;
  const { outline, scale, head } = results;
  const heights = useMemo(() => heightsOf(outline, layout), [outline, layout]);
  const body = useRef<HTMLDivElement>(null);
  const find = useRef<HTMLInputElement>(null);
  const [active, setActiveKey] = useState<string>();
  /** Newer than what is drawn: a quick second key goes on from where the first one leads. */
  const reached = useRef<{ key?: string; steps: Promise<void> }>({
    steps: Promise.resolve(),
  }).current;
  const setActive = (key: string) => {
    reached.key = key;
    setActiveKey(key);
  };
  const { sight, bring } = useSight(body, heights, outline.rows);
  const rows = useRows(editor, results, view, sight, heights);
  useEffect(() => seen(sight.from, sight.to), [seen, sight]);

  // The row of the cursor comes into sight; while something is typed, the page's head shows it already.
  const followed = cursor.typed ? undefined : cursor.index;
  useEffect(() => {
    if (followed !== undefined && followed < outline.rows) bring(followed);
  }, [followed, outline.rows, bring]);

  const byKey = (key: string | undefined) =>
    key === undefined ? undefined : [...rows].find(([, row]) => row.key === key);
  const activeAt = byKey(active);
  const change = (changed: Partial<TableView>) => setView((now) => ({ ...now, ...changed }));

  function setOpen(row: Row, open: boolean) {
    const flip = <One extends string>(list: readonly One[], one: One): One[] =>
      open ? [...new Set([...list, one])] : list.filter((each) => each !== one);
    setView((now) => {
      if (row.kind === 'link') return { ...now, open: flip(now.open, row.name) };
      if (row.kind === 'fibre') return { ...now, openFibres: flip(now.openFibres, row.key) };
      if (row.kind === 'fold') {
        const { group, fold } = row;
        if (fold !== 'group') return { ...now, unfolded: flip(now.unfolded, fold) };
        const shut = now.shut.filter((each) => each !== group);
        return { ...now, shut: open || group === undefined ? shut : [...shut, group] };
      }
      return now;
    });
    if (row.kind === 'link') select(row.name);
  }

  function click(row: Row, twice: boolean) {
    setActive(row.key);
    if (twice) return;
    if (row.kind === 'link' || row.kind === 'fold') setOpen(row, !row.open);
    if (row.at) show(row.at);
  }

  // Rows that have not changed are not made again while others scroll in, so what they call stays the same.
  const newest = useRef(click);
  newest.current = click;
  const steadyClick = useCallback((row: Row, twice: boolean) => newest.current(row, twice), []);

  function goTo(index: number) {
    const to = Math.min(outline.rows - 1, Math.max(0, index));
    bring(to);
    const row = rows.get(to);
    if (row) setActive(row.key);
    else {
      void editor
        .ask({ ask: 'rows', view, from: to, to: to + 1 })
        .then((slice) => slice?.rows[0] && setActive(slice.rows[0].key));
    }
  }

  async function next(to: 'not-pass' | 'missing', back: boolean) {
    const found = await editor.ask({ ask: 'step', view, from: reached.key ?? '', to, back });
    if (!found) return;
    if (found.open.length > 0) {
      setView((now) => ({ ...now, open: [...new Set([...now.open, ...found.open])] }));
    }
    setActive(found.key);
    if (found.index !== undefined) bring(found.index);
  }

  /** From inside a link to the link; an open row is shut. */
  async function shutOrParent() {
    const [index, row] = activeAt ?? [];
    if (!row || index === undefined) return;
    if ('open' in row && row.open) return setOpen(row, false);
    const parent = heights.linkOf(index);
    if (parent !== undefined) goTo(parent);
  }

  /** The last line of the link shows every limit with its sum. */
  async function working() {
    const row = activeAt?.[1];
    if (!row || row.kind === 'fold') return;
    const open = [...new Set([...view.open, row.name])];
    setView((now) => ({ ...now, open }));
    const found = await editor.ask({
      ask: 'find-row',
      view: { ...view, open },
      key: ['limits', row.name].join('\n'),
    });
    if (found?.index === undefined) return;
    setActive(found.key);
    bring(found.index);
  }

  /** All that filter and search leave, into the clipboard or into a file. */
  const take = (form: 'tabs' | 'csv') =>
    void editor
      .ask({ ask: 'text', view, form })
      .then((text) => {
        if (text === null) return;
        if (form === 'tabs') editor.tell({ kind: 'copy', text });
        else editor.tell({ kind: 'save', name: 'readings.csv', text });
      })
      .catch(() => undefined);

  const key = (event: KeyboardEvent) => {
    const [index = -1, row] = activeAt ?? [];
    const used = pressed(event, {
      move: (by) => goTo(index + by),
      first: () => goTo(0),
      last: () => goTo(outline.rows - 1),
      open: () => row && 'open' in row && !row.open && setOpen(row, true),
      shutOrParent: () => void shutOrParent(),
      toggle: () => row && 'open' in row && setOpen(row, !row.open),
      showText: () => row?.at && show(row.at),
      next: (to, back) => {
        reached.steps = reached.steps.then(() => next(to, back)).catch(() => undefined);
      },
      working: () => void working(),
      find: () => find.current?.focus(),
      tally: props.tally,
    });
    if (used) event.preventDefault();
  };

  /** Focus that comes by key must be seen, so a row takes it. */
  const focused = (event: FocusEvent) => {
    const grid = event.currentTarget as HTMLElement;
    if (!activeAt && grid.matches(':focus-visible')) goTo(sight.first);
  };

  const stuck = heights.linkOf(sight.first);
  const stuckRow = stuck === undefined ? undefined : rows.get(stuck);
  return (
    <section id="results" aria-label="Results">
      <Tools
        view={view}
        change={change}
        columns={columns}
        setColumns={setColumns}
        layout={layout}
        take={take}
        find={find}
        shown={outline.fibresShown}
        all={head.sums.fibres}
      />
      {outline.rows === 0 ? (
        <p class="status">{nothingLeft(results, view)}</p>
      ) : (
        <div class={`table ${hiddenColumns(columns)}`}>
          <div class="table-head">
            <TableHead
              scale={scale}
              layout={layout}
              sort={{ ...view, by: (order) => change(sortedBy(view, order)) }}
            />
            {stuckRow?.kind === 'link' ? <Stuck row={stuckRow} {...props} click={click} /> : null}
          </div>
          <div
            ref={body}
            class="table-body virtual"
            role="treegrid"
            aria-label="Links, their fibres and readings"
            aria-rowcount={outline.rows}
            aria-activedescendant={activeAt ? `row-${activeAt[0]}` : undefined}
            tabIndex={0}
            onKeyDown={key}
            onFocus={focused}
            onCopy={(event) => copy(event, activeAt?.[1])}
            style={{ height: `${heights.scrolled}px` }}
          >
            <TableGround scale={scale} />
            {inSight(rows, sight).map(([index, row]) => (
              <KeptRow
                key={row.key}
                row={row}
                scale={scale}
                layout={layout}
                dense={outline.dense}
                height={heights.heightAt(index)}
                top={heights.topOf(index) + sight.shift}
                index={index}
                classes={`${row.key === (props.pointed ?? cursor.key) ? 'at-cursor ' : ''}${row.key === active ? 'active' : ''}`}
                click={steadyClick}
              />
            ))}
          </div>
          <KeyLine scale={scale} />
          {outline.rows > 60 ? (
            <Overview
              places={outline.overview}
              go={(share) => bring(Math.floor(share * outline.rows))}
            />
          ) : null}
        </div>
      )}
    </section>
  );
}

interface StuckProps extends Pick<TableProps, 'results' | 'layout'> {
  readonly row: LinkRow;
  readonly click: (row: Row, twice: boolean) => void;
}

/** The link whose inside is being read stays in sight under the head. */
function Stuck({ row, results, layout, click }: StuckProps) {
  const { scale, outline } = results;
  const height = outline.dense ? 24 : layout === 'narrow' ? 44 : 40;
  return (
    <div class="stuck" aria-hidden="true">
      <TableGround scale={scale} />
      <FramedRow
        row={row}
        scale={scale}
        layout={layout}
        dense={outline.dense}
        height={height}
        click={click}
      />
    </div>
  );
}

/** A row that is made again only when something of it has changed. */
function KeptRow(props: Parameters<typeof FramedRow>[0]) {
  const { row, scale, layout, dense, height, top, index, classes, click } = props;
  return useMemo(
    () => (
      <FramedRow
        row={row}
        scale={scale}
        layout={layout}
        dense={dense}
        {...(height === undefined ? {} : { height })}
        {...(top === undefined ? {} : { top })}
        {...(index === undefined ? {} : { index })}
        {...(classes === undefined ? {} : { classes })}
        {...(click === undefined ? {} : { click })}
      />
    ),
    [row, scale, layout, dense, height, top, index, classes, click],
  );
}

function inSight(
  rows: ReadonlyMap<number, Row>,
  { from, to }: { readonly from: number; readonly to: number },
): readonly (readonly [number, Row])[] {
  const seen: (readonly [number, Row])[] = [];
  for (let index = from; index < to; index += 1) {
    const row = rows.get(index);
    if (row) seen.push([index, row]);
  }
  return seen;
}

/** Rows asked for beyond those that are missing. */
const ahead = 60;

/** Rows either side of those in sight that are not asked for again. */
const mostKept = 400;

/** Rows in sight and the link that sticks above them, asked for where an answer did not bring them. */
function useRows(
  editor: Editor,
  results: Results,
  view: TableView,
  sight: { readonly from: number; readonly to: number; readonly first: number },
  heights: Heights,
): ReadonlyMap<number, Row> {
  const brought = useMemo(
    () => new Map(results.slice.rows.map((row, index) => [results.slice.from + index, row])),
    [results],
  );
  const [more, setMore] = useState<{ of: Results; rows: ReadonlyMap<number, Row> }>();
  const rows = useMemo(
    () => (more?.of === results ? new Map([...brought, ...more.rows]) : brought),
    [brought, more, results],
  );
  useEffect(() => {
    const stuck = heights.linkOf(sight.first);
    const wanted =
      firstGap(rows, sight) ??
      (stuck !== undefined && !rows.has(stuck) ? ([stuck, stuck + 1] as const) : undefined);
    if (!wanted) return;
    // Those beyond come with them, so that a scroll asks seldom.
    const from = Math.max(0, wanted[0] - (wanted[0] === sight.from ? ahead : 0));
    const to = wanted[1] + (wanted[1] === sight.to ? ahead : 0);
    void editor.ask({ ask: 'rows', view, from, to }).then((slice) => {
      if (!slice) return;
      setMore((now) => {
        const near = ([index]: readonly [number, Row]) =>
          index === stuck || (index >= from - mostKept && index < to + mostKept);
        const kept = now?.of === results ? [...now.rows].filter(near) : [];
        const next = slice.rows.map((row, index): [number, Row] => [slice.from + index, row]);
        return { of: results, rows: new Map([...kept, ...next]) };
      });
    });
  }, [editor, results, view, sight, rows, heights]);
  return rows;
}

function firstGap(
  rows: ReadonlyMap<number, Row>,
  { from, to }: { readonly from: number; readonly to: number },
): [number, number] | undefined {
  for (let index = from; index < to; index += 1) if (!rows.has(index)) return [index, to];
  return undefined;
}

function nothingLeft({ tally }: Results, { find, hidden }: TableView) {
  if (find.trim()) return <>Nothing is called “{find.trim()}”.</>;
  const shown = tally.filter(({ verdict }) => !hidden.includes(verdict));
  if (shown.length === 0) return <>All verdicts are switched off above.</>;
  return (
    <>
      No fibre is <b>{shown.map(({ verdict }) => lookOf(verdict).word).join(' or ')}</b>.
    </>
  );
}

/** Values of a fibre as in the text: its number, then its values, parted by tabs. */
function copy(event: ClipboardEvent, row: Row | undefined) {
  const text =
    row?.kind === 'fibre'
      ? [
          row.fibre,
          ...row.values.flat().map(({ text: value, blank }) => (blank ? '-' : value)),
        ].join('\t')
      : row?.kind === 'reading'
        ? [row.fibre, row.what, row.loss || '-'].join('\t')
        : row?.kind === 'link'
          ? [row.name, row.verdict ?? '', row.margin?.text ?? ''].join('\t')
          : undefined;
  if (text === undefined) return;
  event.clipboardData?.setData('text/plain', text);
  event.preventDefault();
}
