/** The changes since a revision: asked for anew when the plan is another, marked where the cursor of the text stands. */
import { render } from 'preact';
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { ChangesView, SidePlace } from '../../../../server/src/report/changes/view.ts';
import { Changes } from '../../../../server/src/report/page/changes.tsx';
import '../../../../server/src/report/page/colours.css';
import '../../../../server/src/report/page/page.css';
import '../../../../server/src/report/page/table.css';
import '../../../../server/src/report/page/changes.css';
import { type CursorAt, changesAt, changesOfObject } from './changes-at.ts';
import { type Line, line } from './editor.ts';
import { latestOnly } from './latest-only.ts';
import { usePageWidth } from './page-width.ts';
import { Stopped, Waiting } from './states.tsx';
import { followTheme } from './theme.ts';

/** After a key, ms; more where a comparison takes long, so that typing does not wait for it. */
const leastRest = 250;
const mostRest = 2000;

interface PageProps {
  readonly editor: Line;
  readonly plan: string;
  readonly revision: string;
}

function Page({ editor, plan, revision }: PageProps) {
  const [view, setView] = useState<ChangesView | null>();
  const [shownAt, setShownAt] = useState<Date>();
  const [failed, setFailed] = useState<string>();
  const [open, setOpen] = useState<ReadonlySet<number>>(new Set());
  const [cursor, setCursor] = useState<CursorAt>();
  const { layout } = usePageWidth();
  const latest = useRef({ object: undefined as string | undefined, took: 0 }).current;

  const load = useMemo(() => {
    const run = latestOnly(async () => {
      const from = performance.now();
      try {
        const answer = (await editor.ask({ ask: 'changes' })) as ChangesView | null;
        setFailed(undefined);
        setView(answer);
        setShownAt(new Date());
      } catch (error) {
        setFailed(error instanceof Error ? error.message : String(error));
      }
      latest.took = performance.now() - from;
    });
    let waiting: ReturnType<typeof setTimeout> | undefined;
    return (wait: 'now' | 'rest') => {
      clearTimeout(waiting);
      const rest = wait === 'now' ? 0 : Math.min(mostRest, Math.max(leastRest, 2 * latest.took));
      waiting = setTimeout(() => void run(), rest);
    };
  }, [editor, latest]);

  useEffect(() => {
    editor.keep({ uri: plan, revision });
    load('now');
    return editor.hear((message) => {
      if (message.kind === 'cursor') setCursor({ uri: message.uri, line: message.position.line });
      else if (message.kind === 'select') latest.object = message.object;
      else if (message.kind === 'server' && !message.running)
        setFailed('The language server has stopped.');
      else load(message.kind === 'server' ? 'now' : 'rest');
      if (message.kind === 'select') load('now');
    });
  }, [editor, plan, revision, load, latest]);

  // What was asked for by name is brought into sight once it is there.
  useEffect(() => {
    if (!view || latest.object === undefined) return;
    const [number] = changesOfObject(view, latest.object);
    latest.object = undefined;
    const item = document.querySelector<HTMLElement>(`[data-change="${number}"]`);
    item?.scrollIntoView({ block: 'start' });
    item?.querySelector<HTMLElement>('button')?.focus({ preventScroll: true });
  }, [view, latest]);

  useEffect(() => {
    document.addEventListener('keydown', stepBetweenChanges);
    return () => document.removeEventListener('keydown', stepBetweenChanges);
  }, []);

  const show = useCallback(
    ({ side, at }: SidePlace) => {
      if (at) editor.tell({ kind: side === 'was' ? 'was' : 'show', ...at });
    },
    [editor],
  );
  const toggle = useCallback(
    (number: number) =>
      setOpen(
        (now) => new Set(now.has(number) ? [...now].filter((n) => n !== number) : [...now, number]),
      ),
    [],
  );
  const restart = useCallback(
    () => editor.tell({ kind: 'command', command: 'linkwright.restartServer' }),
    [editor],
  );
  const another = useCallback(
    () => editor.tell({ kind: 'command', command: 'linkwright.compareRevision' }),
    [editor],
  );
  const marked = useMemo(
    () => (view && cursor ? changesAt(view, cursor) : new Set<number>()),
    [view, cursor],
  );

  if (view === undefined && failed === undefined) return <Waiting>Comparing.</Waiting>;
  if (!view) {
    return (
      <p class="status" role="status">
        {failed ?? 'The plan is not open any more, or is not known.'}{' '}
        <button type="button" class="goto" onClick={another}>
          Choose a revision
        </button>
      </p>
    );
  }
  return (
    <>
      {failed === undefined ? null : <Stopped at={shownAt} restart={restart} what="Changes" />}
      <Changes
        changes={view}
        layout={layout}
        show={show}
        toggle={toggle}
        open={open}
        marked={marked}
      />
      <p class="small quiet changes-another">
        <button type="button" class="goto" onClick={another}>
          Compare with another revision
        </button>
      </p>
      <p class="unseen" role="status" aria-live="polite">
        {view.counted}
      </p>
    </>
  );
}

/** Arrow keys go from change to change, to the first thing in it that can be pressed. */
function stepBetweenChanges(event: KeyboardEvent): void {
  const way = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (way === 0 || event.ctrlKey || event.altKey || event.metaKey) return;
  const items = [...document.querySelectorAll<HTMLElement>('[data-change]')].filter((item) =>
    item.querySelector('button'),
  );
  const at = items.findIndex((item) => item.contains(document.activeElement));
  const next = items[at < 0 ? (way > 0 ? 0 : items.length - 1) : at + way];
  if (!next) return;
  event.preventDefault();
  next.querySelector<HTMLElement>('button')?.focus();
}

const place = document.getElementById('page');
const { plan = '', revision = '' } = document.body.dataset;
if (place) {
  followTheme();
  render(<Page editor={line()} plan={plan} revision={revision} />, place);
}
