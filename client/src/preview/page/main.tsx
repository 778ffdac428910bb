/** The results view: asks for what it shows, shows what it is told, and follows the cursor of the text. */
import { render } from 'preact';
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Verdict } from '../../../../server/src/evaluate/result.ts';
import type { Drawing } from '../../../../server/src/report/drawing.ts';
import { DrawingView } from '../../../../server/src/report/page/drawing.tsx';
import { Findings } from '../../../../server/src/report/page/findings.tsx';
import { HeadView, Tally } from '../../../../server/src/report/page/head.tsx';
import {
  plainView,
  type Question,
  type TableView,
} from '../../../../server/src/report/question.ts';
import type {
  AtCursor,
  FindingsView,
  Results,
  TextEdit,
  TextPlace,
} from '../../../../server/src/report/view.ts';
import '../../../../server/src/report/page/colours.css';
import '../../../../server/src/report/page/page.css';
import '../../../../server/src/report/page/table.css';
import '../../../../server/src/report/page/drawing.css';
import '../../../../server/src/report/page/charts.css';
import { connect, type Editor } from './editor.ts';
import { ChartsPart, CoveragePart } from './further.tsx';
import { latestOnly } from './latest-only.ts';
import { usePageWidth } from './page-width.ts';
import { ResultsTable } from './results-table.tsx';
import { Sections } from './sections.tsx';
import { Stopped, Waiting } from './states.tsx';
import { followTheme } from './theme.ts';
import { type Column, columnNames } from './tools.tsx';
import { TypedView } from './typed.tsx';

/** Rows that come with the first answer. */
const firstRows = 80;

interface Loaded {
  readonly results: Results;
  /** When they were true, on the reader's clock. */
  readonly at: Date;
}

type CursorQuestion = Extract<Question, { ask: 'cursor' }>;

function Page({ editor, plan }: { readonly editor: Editor; readonly plan: string }) {
  const [view, setView] = useState<TableView>(() => ({ ...plainView, ...kept(editor) }));
  const [columns, setColumns] = useState<readonly Column[]>(() => keptColumns(editor));
  const [loaded, setLoaded] = useState<Loaded | null>();
  const [failed, setFailed] = useState(false);
  const [drawing, setDrawing] = useState<Drawing | null>(null);
  const [moreFindings, setMoreFindings] = useState<{ of: Results; view: FindingsView }>();
  const [cursor, setCursor] = useState<AtCursor>({});
  /** Row of the reading that is pointed at in a chart. */
  const [pointed, setPointed] = useState<string>();
  const { layout, width } = usePageWidth();
  const latest = useRef({
    view,
    root: '',
    drawn: undefined as { object: string; wavelength: number | undefined } | undefined,
    place: undefined as Pick<CursorQuestion, 'uri' | 'position'> | undefined,
    /** The cursor was put where it stands: no number is half typed. */
    whole: false,
    sight: { from: 0, to: firstRows },
    /** The scale may only grow while something is typed. */
    reach: 0,
    typing: false,
  }).current;
  latest.view = view;

  const load = useMemo(
    () =>
      latestOnly(async () => {
        const asked = { ...latest.view, reach: latest.typing ? latest.reach : 0 };
        try {
          const results = await editor.ask({ ask: 'results', view: asked, ...latest.sight });
          setFailed(false);
          setLoaded(results ? { results, at: new Date() } : null);
          if (!results) return;
          latest.root = results.root;
          latest.reach = results.scale.reach;
        } catch {
          setFailed(true);
        }
      }),
    [editor, latest],
  );

  const draw = useMemo(() => {
    const run = latestOnly(async () => {
      if (!latest.drawn) return;
      const { object, wavelength } = latest.drawn;
      const answer = await editor.ask({
        ask: 'drawing',
        object,
        ...(wavelength === undefined ? {} : { wavelength }),
      });
      setDrawing(answer);
    });
    return (object?: string, wavelength?: number) => {
      if (object !== undefined) latest.drawn = { object, wavelength };
      void run().catch(() => setFailed(true));
    };
  }, [editor, latest]);

  const follow = useMemo(
    () =>
      latestOnly(async () => {
        if (!latest.place) return;
        const answer =
          (await editor.ask({ ask: 'cursor', ...latest.place, view: latest.view })) ?? {};
        latest.typing = answer.typed !== undefined;
        const { typed } = answer;
        setCursor(
          typed && latest.whole ? { ...answer, typed: { ...typed, inside: false } } : answer,
        );
        if (answer.object && answer.object !== latest.drawn?.object) draw(answer.object);
      }),
    [editor, latest, draw],
  );

  useEffect(() => {
    editor.keep({ uri: plan, ...view, columns });
    void load();
    void follow().catch(() => undefined);
  }, [editor, plan, view, columns, load, follow]);

  useEffect(
    () =>
      editor.hear((message) => {
        if (message.kind === 'changed') {
          if (latest.root !== '' && message.root !== latest.root) return;
          void load();
          draw();
          void follow().catch(() => undefined);
        } else if (message.kind === 'cursor') {
          latest.place = { uri: message.uri, position: message.position };
          latest.whole = message.whole ?? false;
          void follow().catch(() => undefined);
        } else if (message.kind === 'saved') {
          latest.reach = 0;
          void load();
        } else if (message.kind === 'server') {
          if (!message.running) {
            setFailed(true);
            return;
          }
          void load();
          draw();
          void follow().catch(() => undefined);
        } else if (message.kind === 'select') {
          setView((now) => ({ ...now, open: [...new Set([...now.open, message.object])] }));
          draw(message.object);
        }
      }),
    [editor, latest, load, draw, follow],
  );

  // The first link that asks for a look is drawn until another is chosen.
  const results = loaded?.results;
  useEffect(() => {
    const first = results?.slice.rows.find((row) => row.kind === 'link');
    if (!latest.drawn && first?.kind === 'link') draw(first.name);
  }, [results, latest, draw]);

  const show = useCallback(
    (place: TextPlace) => editor.tell({ kind: 'show', uri: place.uri, range: place.range }),
    [editor],
  );
  const fix = useCallback(
    (edits: readonly TextEdit[]) => editor.tell({ kind: 'edit', edits: edits.map((each) => each) }),
    [editor],
  );
  const restart = useCallback(
    () => editor.tell({ kind: 'command', command: 'linkwright.restartServer' }),
    [editor],
  );
  const seen = useCallback(
    (from: number, to: number) => {
      latest.sight = { from, to: Math.max(to, from + firstRows) };
    },
    [latest],
  );
  const toggle = useCallback(
    (verdict: Verdict) =>
      setView((now) => ({
        ...now,
        hidden: now.hidden.includes(verdict)
          ? now.hidden.filter((each) => each !== verdict)
          : [...now.hidden, verdict],
      })),
    [],
  );
  // Half a number changes no count: the tally waits until the cursor has left it.
  const whole = useRef<Results | undefined>(undefined);
  if (results && (!cursor.typed?.inside || !whole.current)) whole.current = results;

  if (loaded === undefined) {
    return failed ? <Stopped at={undefined} restart={restart} /> : <Waiting />;
  }
  if (loaded === null || !results) {
    return <p class="status">Open a plan, a file ending in .lwl, to see its results.</p>;
  }
  const counted = whole.current ?? results;
  const further = { editor, results, view, width, show };
  const findings = moreFindings?.of === results ? moreFindings.view : results.findings;
  return (
    <>
      {failed ? <Stopped at={loaded.at} restart={restart} /> : null}
      <Sections
        head={results.head}
        findings={findings.total}
        drawn={drawing !== null}
        empty={results.empty !== undefined}
      />
      {cursor.typed ? (
        <TypedView typed={cursor.typed} scale={results.scale} layout={layout} show={show} />
      ) : (
        <HeadView head={results.head} show={show} />
      )}
      <Tally tally={counted.tally} head={counted.head} toggle={toggle} />
      {results.empty ? (
        <p class="status">
          <b>No links yet.</b> A link names two ends and what lies between them.
        </p>
      ) : (
        <ResultsTable
          editor={editor}
          results={results}
          view={view}
          setView={setView}
          layout={layout}
          columns={columns}
          setColumns={setColumns}
          cursor={cursor}
          pointed={pointed}
          show={show}
          select={draw}
          tally={toggle}
          seen={seen}
        />
      )}
      {drawing ? (
        <DrawingView
          drawing={drawing}
          width={width}
          narrow={layout === 'narrow'}
          show={show}
          choose={(wavelength) => draw(drawing.object, wavelength)}
        />
      ) : null}
      {results.empty ? null : (
        <>
          <ChartsPart
            {...further}
            link={drawing?.object}
            chosen={drawing?.chosen}
            point={setPointed}
          />
          <CoveragePart {...further} />
        </>
      )}
      <Findings
        findings={findings}
        show={show}
        fix={fix}
        more={() =>
          void editor
            .ask({ ask: 'findings', from: 0, to: findings.rows.length + 100 })
            .then((more) => more && setMoreFindings({ of: results, view: more }))
        }
      />
      <p class="unseen" role="status" aria-live="polite">
        {cursor.typed && !cursor.typed.inside
          ? `${cursor.typed.over} ${cursor.typed.sentence}`
          : ''}
      </p>
    </>
  );
}

/** How the table was looked at before the window was reloaded. */
function kept(editor: Editor): Partial<TableView> {
  const state = editor.kept() as Partial<TableView> | null | undefined;
  if (!state || typeof state !== 'object') return {};
  const lists = (value: unknown): string[] =>
    Array.isArray(value) ? value.filter((each) => typeof each === 'string') : [];
  const order = (['margin', 'plan', 'name'] as const).find((each) => each === state.order);
  const group = (['link', 'cable', 'verdict'] as const).find((each) => each === state.group);
  return {
    shut: lists(state.shut),
    open: lists(state.open),
    openFibres: lists(state.openFibres),
    find: typeof state.find === 'string' ? state.find : '',
    ...(order ? { order } : {}),
    ...(group ? { group } : {}),
  };
}

/** Columns that were not shown. */
function keptColumns(editor: Editor): readonly Column[] {
  const state = editor.kept() as { readonly columns?: unknown } | null | undefined;
  const kept: readonly unknown[] = Array.isArray(state?.columns) ? state.columns : [];
  return columnNames.filter((column) => kept.includes(column));
}

const place = document.getElementById('page');
const plan = document.body.dataset.plan ?? '';
if (place) {
  followTheme();
  render(<Page editor={connect()} plan={plan} />, place);
}
