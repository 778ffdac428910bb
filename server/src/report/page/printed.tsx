/** Results as one file: the same rows, drawing and findings as in the editor, every link opened, nothing fetched. */
import renderToString from 'preact-render-to-string';
import { resultsOf } from '../answer.ts';
import { drawingOf } from '../drawing.ts';
import { findingsOf } from '../findings.ts';
import { plainView } from '../question.ts';
import type { Subject } from '../subject.ts';
import type { FindingsView, Results } from '../view.ts';
import { DrawingView } from './drawing.tsx';
import { Findings } from './findings.tsx';
import { HeadView, Tally } from './head.tsx';
import { heightOf } from './rows.tsx';
import styles from './styles.css';
import { FramedRow, KeyLine, TableHead } from './table.tsx';

const everything = 1_000_000;
/** Links are opened into their fibres up to this many; beyond, a file has a line a link. */
const mostOpened = 400;
/** Drawings of links that ask for a look come first; a file holds so many at the most. */
const mostDrawings = 40;
const mostFindings = 2000;

/** A whole HTML document. `links` narrows it to some links or channels by name. */
export function printResults(subjects: readonly Subject[], tool: string): string {
  const parts = subjects.map((subject) => renderToString(<Plan subject={subject} />)).join('\n');
  const title = subjects.map(({ plan }) => plan.settings.title ?? 'Results').join(', ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${styles}</style>
</head>
<body class="printed wide">
${parts}
<p class="small quiet">${escaped(tool)}. Light in fibres is invisible and can harm: never look into a fibre or plug. Local codes and licensed practice decide.</p>
</body>
</html>
`;
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
  const drawn = rows
    .flatMap((row) => (row.kind === 'link' ? [row.name] : []))
    .slice(0, mostDrawings);
  return (
    <article>
      <HeadView head={results.head} />
      <Tally tally={results.tally} head={results.head} />
      {results.empty ? (
        <p class="status">No links yet. A link names two ends and what lies between them.</p>
      ) : (
        <div class="table">
          <TableHead scale={results.scale} layout="wide" />
          <div class="table-body">
            {rows.map((row) => (
              <FramedRow
                key={row.key}
                row={row}
                scale={results.scale}
                layout="wide"
                dense={results.outline.dense}
                height={heightOf(
                  row.kind,
                  row.kind === 'limits' ? row.wavelengths.length : 1,
                  'wide',
                  results.outline.dense,
                )}
              />
            ))}
          </div>
          <KeyLine scale={results.scale} />
        </div>
      )}
      <Findings findings={findings} />
      {drawn.flatMap((name) => {
        const drawing = drawingOf(subject, name, undefined);
        return drawing ? [<DrawingView key={name} drawing={drawing} />] : [];
      })}
    </article>
  );
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

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
