/** Results as one file: the same rows, drawing and findings as in the editor, every link opened, nothing fetched. */
import renderToString from 'preact-render-to-string';
import type { Verdict } from '../../evaluate/result.ts';
import { resultsOf } from '../answer.ts';
import { chartsOf } from '../charts.ts';
import { coverageOf } from '../coverage.ts';
import { drawingOf } from '../drawing.ts';
import { findingsOf } from '../findings.ts';
import { plainView } from '../question.ts';
import type { Subject } from '../subject.ts';
import type { FindingsView, Results } from '../view.ts';
import { Charts } from './charts.tsx';
import { Coverage } from './coverage.tsx';
import { DrawingView } from './drawing.tsx';
import { Findings } from './findings.tsx';
import { HeadView, Tally } from './head.tsx';
import { heightOf } from './layout.ts';
import { Sideways } from './sideways.tsx';
import { FramedRow, KeyLine, TableGround, TableHead } from './table.tsx';
import { wholePage } from './whole-page.ts';

const everything = 1_000_000;
/** Links are opened into their fibres up to this many; beyond, a file has a line a link. */
const mostOpened = 400;
/** Links that ask for a look are drawn, the worst first; a file holds so many at the most. */
const mostDrawings = 12;
const mostFindings = 2000;
/** Of a drawing, px: the width between the edges of A4 at 96 px an inch. */
const printedWidth = 680;

/** A whole HTML document. `links` narrows it to some links or channels by name. */
export function printResults(subjects: readonly Subject[], tool: string): string {
  const parts = subjects.map((subject) => renderToString(<Plan subject={subject} />));
  const title = subjects.map(({ plan }) => plan.settings.title ?? 'Results').join(', ');
  return wholePage({ title, parts, tool });
}

function Plan({ subject }: { readonly subject: Subject }) {
  const { order } = subject.plan.result;
  const view = {
    ...plainView,
    open: order.length <= mostOpened ? [...order] : [],
    unfolded: ['pass' as const, 'untested' as const],
  };
  const results: Results = resultsOf(subject, view, 0, everything);
  const rows = allRows(subject, view, results);
  const findings: FindingsView = findingsOf(subject.plan, 0, mostFindings);
  // What has several ways is not told by one row: a tree or a ring is drawn whatever its verdict.
  const branches = (name: string) => (subject.plan.result.link(name)?.ways.length ?? 0) > 0;
  const drawn = rows
    .flatMap((row) =>
      row.kind === 'link' && (asksForALook(row.verdict) || branches(row.name)) ? [row.name] : [],
    )
    .slice(0, mostDrawings);
  return (
    <article>
      <HeadView head={results.head} />
      <Tally tally={results.tally} head={results.head} />
      {results.empty ? (
        <p class="status">No links yet. A link names two ends and what lies between them.</p>
      ) : (
        <Sideways says="Readings and verdicts">
          <div class="table">
            <div class="table-head">
              <TableHead scale={results.scale} layout="wide" />
            </div>
            <div class="table-body" role="treegrid" aria-label="Links, their fibres and readings">
              <TableGround scale={results.scale} />
              {rows.map((row) => (
                <FramedRow
                  key={row.key}
                  row={row}
                  scale={results.scale}
                  layout="wide"
                  dense={results.outline.dense}
                  height={
                    row.kind === 'limits'
                      ? undefined
                      : heightOf(row.kind, 1, 'wide', results.outline.dense)
                  }
                />
              ))}
            </div>
          </div>
        </Sideways>
      )}
      {results.empty ? null : <KeyLine scale={results.scale} />}
      <Findings findings={findings} />
      {drawn.flatMap((name) => {
        const drawing = drawingOf(subject, name, undefined);
        return drawing
          ? [<DrawingView key={name} drawing={drawing} width={printedWidth} narrow={false} />]
          : [];
      })}
      {results.empty ? null : (
        <>
          <Charts charts={chartsOf(subject, view, undefined)} width={printedWidth} />
          <Coverage coverage={coverageOf(subject, view)} width={printedWidth} />
        </>
      )}
    </article>
  );
}

function asksForALook(verdict: Verdict | undefined): boolean {
  return verdict !== undefined && !['pass', 'untested', 'not-judged'].includes(verdict);
}

/** Rows come in slices; a file takes them all. */
function allRows(subject: Subject, view: typeof plainView, first: Results) {
  const rows = [...first.slice.rows];
  while (rows.length < first.outline.rows) {
    const next = resultsOf(subject, view, rows.length, rows.length + everything).slice;
    if (next.rows.length === 0) break;
    rows.push(...next.rows.slice(rows.length - next.from));
  }
  return rows;
}
