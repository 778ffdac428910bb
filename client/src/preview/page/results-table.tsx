/**
 * The results table of the live page: only what is seen and 20 rows either side
 * exist, the rest is height. One stop in the tab order; keys move a row that is
 * known by its key, so that it stays the same row through every update.
 */
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { verdicts } from '../../../../server/src/evaluate/result.ts';
import type { Layout } from '../../../../server/src/report/page/rows.tsx';
import { FramedRow, KeyLine, TableHead } from '../../../../server/src/report/page/table.tsx';
import type { TableView } from '../../../../server/src/report/question.ts';
import type { AtCursor, Results, Row, TextPlace } from '../../../../server/src/report/view.ts';
import type { Editor } from './editor.ts';
import { heightsOf } from './heights.ts';

const beyond = 20;

interface TableProps {
  readonly editor: Editor;
  readonly results: Results;
  readonly view: TableView;
  readonly setView: (change: (now: TableView) => TableView) => void;
  readonly layout: Layout;
  readonly cursor: AtCursor;
  readonly show: (place: TextPlace) => void;
  readonly select: (object: string) => void;
}

export function ResultsTable({
  editor,
  results,
  view,
  setView,
  layout,
  cursor,
  show,
  select,
}: TableProps) {
  const { outline, scale, head } = results;
  const heights = useMemo(() => heightsOf(outline, layout), [outline, layout]);
  const body = useRef<HTMLDivElement>(null);
  const find = useRef<HTMLInputElement>(null);
  const [rows, setRows] = useState<ReadonlyMap<number, Row>>(new Map());
  const [window_, setWindow] = useState({ from: 0, to: 60 });
  const [active, setActive] = useState<string>();

  // A new answer replaces what was known; rows out of its slice are asked for anew.
  useEffect(() => {
    setRows(new Map(results.slice.rows.map((row, index) => [results.slice.from + index, row])));
  }, [results]);

  const measure = useCallback(() => {
    const top = body.current?.getBoundingClientRect().top ?? 0;
    const from = heights.rowAt(Math.max(0, -top));
    const to = heights.rowAt(Math.max(0, window.innerHeight - top));
    setWindow({ from: Math.max(0, from - beyond), to: Math.min(outline.rows, to + 1 + beyond) });
  }, [heights, outline.rows]);

  useEffect(() => {
    measure();
    window.addEventListener('scroll', measure, { passive: true });
    window.addEventListener('resize', measure);
    return () => {
      window.removeEventListener('scroll', measure);
      window.removeEventListener('resize', measure);
    };
  }, [measure]);

  useEffect(() => {
    let first = window_.from;
    while (first < window_.to && rows.has(first)) first += 1;
    if (first >= window_.to) return;
    let current = true;
    void editor.ask({ ask: 'rows', view, from: first, to: window_.to }).then((slice) => {
      if (!slice || !current) return;
      setRows((now) => {
        const next = new Map(now);
        for (const [index, row] of slice.rows.entries()) next.set(slice.from + index, row);
        return next;
      });
    });
    return () => {
      current = false;
    };
  }, [editor, view, window_, rows]);

  const scrollTo = useCallback(
    (index: number) => {
      const top =
        (body.current?.getBoundingClientRect().top ?? 0) + window.scrollY + heights.topOf(index);
      const height = heights.heightAt(index);
      if (top < window.scrollY + 30) window.scrollTo({ top: top - 60 });
      else if (top + height > window.scrollY + window.innerHeight)
        window.scrollTo({ top: top + height - window.innerHeight + 20 });
    },
    [heights],
  );

  // The row of the cursor in the text comes into sight, and never takes the focus.
  useEffect(() => {
    if (cursor.index !== undefined && cursor.index < outline.rows) scrollTo(cursor.index);
  }, [cursor.key, cursor.index, outline.rows, scrollTo]);

  const toggle = useCallback(
    (row: Row) => {
      const flip = (list: readonly string[], one: string) =>
        list.includes(one) ? list.filter((each) => each !== one) : [...list, one];
      setView((now) => {
        if (row.kind === 'link') return { ...now, open: flip(now.open, row.name) };
        if (row.kind === 'fibre') return { ...now, openFibres: flip(now.openFibres, row.key) };
        if (row.kind === 'fold')
          return { ...now, unfolded: flip(now.unfolded, row.fold) as TableView['unfolded'] };
        return now;
      });
      if (row.kind === 'link') select(row.name);
    },
    [setView, select],
  );

  const click = (row: Row, twice: boolean) => {
    setActive(row.key);
    if (twice) return;
    if (row.kind === 'reading' && row.at) show(row.at);
    else if (row.kind === 'fibre' && row.at) show(row.at);
    else toggle(row);
    if (row.kind === 'link' && row.at) show(row.at);
  };

  const indexOf = (key: string | undefined) => [...rows].find(([, row]) => row.key === key)?.[0];

  async function step(to: 'not-pass' | 'missing', back: boolean) {
    const found = await editor.ask({ ask: 'step', view, from: active ?? '', to, back });
    if (!found) return;
    if (found.open.length > 0)
      setView((now) => ({ ...now, open: [...new Set([...now.open, ...found.open])] }));
    setActive(found.key);
    if (found.index !== undefined) scrollTo(found.index);
  }

  function move(to: number) {
    const index = Math.min(outline.rows - 1, Math.max(0, to));
    const row = rows.get(index);
    if (row) setActive(row.key);
    scrollTo(index);
  }

  function key(event: KeyboardEvent) {
    const at = indexOf(active) ?? -1;
    const row = rows.get(at);
    const number = Number(event.key);
    const pages = 20;
    const moves: Record<string, () => void> = {
      ArrowDown: () => move(at + 1),
      ArrowUp: () => move(at - 1),
      Home: () => move(0),
      End: () => move(outline.rows - 1),
      PageDown: () => move(at + pages),
      PageUp: () => move(at - pages),
      ArrowRight: () => row && 'open' in row && !row.open && toggle(row),
      ArrowLeft: () => row && 'open' in row && row.open && toggle(row),
      ' ': () => row && toggle(row),
      Enter: () => row?.at && show(row.at),
      n: () => void step('not-pass', false),
      N: () => void step('not-pass', true),
      m: () => void step('missing', false),
      w: () =>
        row &&
        'name' in row &&
        setView((now) => ({ ...now, open: [...new Set([...now.open, row.name])] })),
      f: () => find.current?.focus(),
      Escape: () => row?.at && show(row.at),
    };
    const run = moves[event.key];
    if (run) {
      event.preventDefault();
      run();
    } else if (number >= 1 && number <= 9) {
      const verdict = verdicts[number - 1];
      if (verdict) {
        setView((now) => ({
          ...now,
          hidden: now.hidden.includes(verdict)
            ? now.hidden.filter((each) => each !== verdict)
            : [...now.hidden, verdict],
        }));
      }
    }
  }

  const seen = [...rows]
    .filter(([index]) => index >= window_.from && index < window_.to)
    .sort(([a], [b]) => a - b);
  const hiddenAll = outline.rows === 0;
  return (
    <section id="results" aria-label="Results">
      <div class="tools">
        <label>
          <span class="small quiet">order </span>
          <select
            value={view.order}
            onChange={(event) =>
              setView((now) => ({ ...now, order: event.currentTarget.value as TableView['order'] }))
            }
          >
            <option value="margin">worst margin first</option>
            <option value="plan">as in the plan</option>
            <option value="name">by name</option>
          </select>
        </label>
        <label>
          <span class="small quiet">find </span>
          <input
            ref={find}
            type="search"
            value={view.find}
            placeholder="link, fibre or port"
            onInput={(event) => {
              const text = event.currentTarget.value;
              setView((now) => ({ ...now, find: text }));
            }}
          />
        </label>
        {view.find || view.hidden.length > 0 ? (
          <span class="small quiet">
            {outline.fibresShown} of {head.sums.fibres} fibres shown{' '}
            <button
              type="button"
              class="goto"
              onClick={() => setView((now) => ({ ...now, find: '', hidden: [] }))}
            >
              Show all {head.sums.fibres}
            </button>
          </span>
        ) : null}
      </div>
      <div class="table">
        <TableHead scale={scale} layout={layout} />
        {hiddenAll ? <p class="status">Nothing is left of the table.</p> : null}
        <div
          ref={body}
          class="table-body virtual"
          role="treegrid"
          aria-label="Links and fibres"
          aria-rowcount={outline.rows}
          aria-activedescendant={
            indexOf(active) === undefined ? undefined : `row-${indexOf(active)}`
          }
          tabIndex={0}
          onKeyDown={key}
          style={{ height: `${heights.total}px` }}
        >
          {seen.map(([index, row]) => (
            <FramedRow
              key={row.key}
              row={row}
              scale={scale}
              layout={layout}
              dense={outline.dense}
              height={heights.heightAt(index)}
              top={heights.topOf(index)}
              position={{ index, count: outline.rows }}
              classes={`${row.key === cursor.key ? 'at-cursor' : ''}${row.key === active ? ' active' : ''}`}
              click={click}
            />
          ))}
        </div>
        <KeyLine scale={scale} />
      </div>
    </section>
  );
}
