/** Findings, one line each: how severe, where, what to look at, and a fix where there is one. */
import { counted } from '../figures.ts';
import type { FindingRow, FindingsView, Severity, TextEdit, TextPlace } from '../view.ts';
import { GoTo } from './go-to.tsx';

interface FindingsProps {
  readonly findings: FindingsView;
  readonly show?: (place: TextPlace) => void;
  readonly fix?: (edits: readonly TextEdit[]) => void;
  readonly more?: () => void;
}

const severities: readonly Severity[] = ['error', 'warning', 'note'];

export function Findings({ findings, show, fix, more }: FindingsProps) {
  const { counts, rows, total } = findings;
  const sums = severities
    .filter((severity) => counts[severity] > 0)
    .map((severity) => counted(counts[severity], severity));
  return (
    <section id="findings" aria-label="Findings">
      <h2>
        Findings{' '}
        <span class="small quiet">{sums.length > 0 ? sums.join(', ') : 'nothing found'}</span>
      </h2>
      {rows.length > 0 ? (
        <ul class="findings">
          {rows.map((row, index) => (
            <FindingLine key={index} row={row} show={show} fix={fix} />
          ))}
        </ul>
      ) : null}
      {rows.length < total && more ? (
        <button type="button" class="goto" onClick={more}>
          Show {Math.min(100, total - rows.length)} more of {total}
        </button>
      ) : null}
    </section>
  );
}

function FindingLine({
  row,
  show,
  fix,
}: Pick<FindingsProps, 'show' | 'fix'> & { readonly row: FindingRow }) {
  return (
    <li class="finding">
      <span class={`severity severity-${row.severity}`}>{row.severity}</span>
      <span class="about mono">{row.about}</span>
      <span class="message">
        {row.message}
        {row.more ? <span class="quiet"> {row.more}</span> : null}
        {row.fix && fix ? (
          <>
            {' '}
            <button
              type="button"
              class="goto underlined"
              onClick={() => row.fix && fix(row.fix.edits)}
            >
              {row.fix.title}
            </button>
          </>
        ) : null}
      </span>
      <span class="finding-where small">
        <span class="mono quiet">{row.name}</span>{' '}
        <GoTo place={row.at} show={show}>
          {row.where}
        </GoTo>
      </span>
    </li>
  );
}
