/** The results view: asks for what it shows, shows what it is told, and follows the cursor of the text. */
import { render } from 'preact';
import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Verdict } from '../../../../server/src/evaluate/result.ts';
import type { Drawing } from '../../../../server/src/report/drawing.ts';
import { DrawingView } from '../../../../server/src/report/page/drawing.tsx';
import { Findings } from '../../../../server/src/report/page/findings.tsx';
import { HeadView, Tally } from '../../../../server/src/report/page/head.tsx';
import type { Layout } from '../../../../server/src/report/page/rows.tsx';
import { plainView, type TableView } from '../../../../server/src/report/question.ts';
import type {
  AtCursor,
  FindingsView,
  Results,
  TextPlace,
} from '../../../../server/src/report/view.ts';
import '../../../../server/src/report/page/styles.css';
import { raiseContrast } from './contrast.ts';
import { connect, type Editor } from './editor.ts';
import { ResultsTable } from './results-table.tsx';
import { TypedView } from './typed.tsx';

/** Rows that come with the page. */
const firstRows = 80;

function layoutNow(): Layout {
  return window.innerWidth >= 960 ? 'wide' : window.innerWidth >= 640 ? 'middle' : 'narrow';
}

function Page({ editor, plan }: { readonly editor: Editor; readonly plan: string }) {
  const [view, setView] = useState<TableView>(() => ({ ...plainView, ...kept(editor) }));
  const [results, setResults] = useState<Results>();
  const [failed, setFailed] = useState<string>();
  const [drawing, setDrawing] = useState<Drawing | null>(null);
  const [moreFindings, setMoreFindings] = useState<FindingsView>();
  const [cursor, setCursor] = useState<AtCursor>({});
  const [layout, setLayout] = useState<Layout>(layoutNow);
  const latest = useRef({
    view,
    drawing,
    cursorAt: undefined as Parameters<Editor['ask']>[0] | undefined,
  });
  latest.current.view = view;
  latest.current.drawing = drawing;

  const load = useCallback(async () => {
    try {
      const answer = await editor.ask({
        ask: 'results',
        view: latest.current.view,
        from: 0,
        to: firstRows,
      });
      setFailed(undefined);
      if (answer) setResults(answer);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  }, [editor]);

  const draw = useCallback(
    async (object: string, wavelength?: number) => {
      const answer = await editor.ask({
        ask: 'drawing',
        object,
        ...(wavelength === undefined ? {} : { wavelength }),
      });
      setDrawing(answer);
    },
    [editor],
  );

  const follow = useCallback(async () => {
    const asked = latest.current.cursorAt;
    if (asked?.ask !== 'cursor') return;
    const answer = await editor.ask({ ...asked, view: latest.current.view });
    setCursor(answer ?? {});
    if (answer?.object && answer.object !== latest.current.drawing?.object)
      await draw(answer.object);
  }, [editor, draw]);

  useEffect(() => {
    editor.keep({ uri: plan, ...view });
    void load();
  }, [editor, plan, view, load]);

  useEffect(() => {
    editor.hear((message) => {
      if (message.kind === 'changed') {
        void load();
        const shown = latest.current.drawing;
        if (shown) void draw(shown.object, shown.chosen);
        void follow();
      } else if (message.kind === 'cursor') {
        latest.current.cursorAt = {
          ask: 'cursor',
          uri: message.uri,
          position: message.position,
          view: latest.current.view,
        };
        void follow();
      } else if (message.kind === 'select') {
        setView((now) => ({ ...now, open: [...new Set([...now.open, message.object])] }));
        void draw(message.object);
      }
    });
    const resized = () => setLayout(layoutNow());
    window.addEventListener('resize', resized);
    const themed = new MutationObserver(() => raiseContrast(document.body));
    themed.observe(document.body, { attributes: true, attributeFilter: ['class'] });
    raiseContrast(document.body);
    return () => window.removeEventListener('resize', resized);
  }, [editor, load, draw, follow]);

  // The first link that asks for a look is drawn until another is chosen.
  useEffect(() => {
    const first = results?.slice.rows.find((row) => row.kind === 'link');
    if (!drawing && first?.kind === 'link') void draw(first.name);
  }, [results, drawing, draw]);

  useLayoutEffect(() => {
    for (const each of ['wide', 'middle', 'narrow'])
      document.body.classList.toggle(each, each === layout);
  }, [layout]);

  const show = useCallback(
    (place: TextPlace) => editor.tell({ kind: 'show', uri: place.uri, range: place.range }),
    [editor],
  );
  const toggle = (verdict: Verdict) =>
    setView((now) => ({
      ...now,
      hidden: now.hidden.includes(verdict)
        ? now.hidden.filter((each) => each !== verdict)
        : [...now.hidden, verdict],
    }));

  if (failed !== undefined) {
    return <p class="status">The language server does not answer: {failed}</p>;
  }
  if (!results) return <p class="status" aria-live="polite" />;
  const findings = moreFindings ?? results.findings;
  return (
    <>
      <nav class="sections" aria-label="Sections">
        <a class="section-word current" href="#results">
          Results
          {results.head.sums.toMake > 0 ? (
            <span class="quiet"> {results.head.sums.toMake} to make</span>
          ) : null}
        </a>
        <a class="section-word" href="#link">
          Link drawing
        </a>
        <a class="section-word" href="#findings">
          Findings <span class="quiet">{results.findings.total}</span>
        </a>
      </nav>
      {cursor.typed ? (
        <TypedView typed={cursor.typed} />
      ) : (
        <HeadView head={results.head} show={show} />
      )}
      <Tally tally={results.tally} head={results.head} toggle={toggle} />
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
          cursor={cursor}
          show={show}
          select={(object) => void draw(object)}
        />
      )}
      {drawing ? (
        <DrawingView
          drawing={drawing}
          show={show}
          choose={(wavelength) => void draw(drawing.object, wavelength)}
        />
      ) : null}
      <Findings
        findings={findings}
        show={show}
        more={() =>
          void editor
            .ask({ ask: 'findings', from: 0, to: findings.rows.length + 100 })
            .then((more) => more && setMoreFindings(more))
        }
      />
      <p class="hidden-status" role="status" aria-live="polite">
        {cursor.typed && !cursor.typed.inside ? cursor.typed.sentence : ''}
      </p>
    </>
  );
}

/** How the table was looked at before the window was reloaded. */
function kept(editor: Editor): Partial<TableView> {
  const state = editor.kept() as Partial<TableView> | null | undefined;
  const lists = (value: unknown): string[] =>
    Array.isArray(value) ? value.filter((each) => typeof each === 'string') : [];
  if (!state || typeof state !== 'object') return {};
  return {
    open: lists(state.open),
    openFibres: lists(state.openFibres),
    find: typeof state.find === 'string' ? state.find : '',
  };
}

const place = document.getElementById('page');
const plan = document.body.dataset.plan ?? '';
if (place) render(<Page editor={connect()} plan={plan} />, place);
