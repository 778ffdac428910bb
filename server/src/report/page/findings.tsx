/** Findings, one line each: how severe, where, what to look at, and a fix where there is one. */
import type { FindingRow, FindingsView, TextPlace } from '../view.ts';

interface FindingsProps {
  readonly findings: FindingsView;
  readonly show?: (place: TextPlace) => void;
  readonly more?: () => void;
}

export function Findings({ findings, show, more }: FindingsProps) {
  const { counts, rows, total } = findings;
  return (
    <section id="findings" aria-label="Findings">
      <h2>Findings</h2>
      <p class="small quiet">
        {plural(counts.error, 'error')} · {plural(counts.warning, 'warning')} ·{' '}
        {plural(counts.note, 'note')}
      </p>
      <ul class="findings">
        {rows.map((row, index) => (
          <FindingLine key={index} row={row} show={show} />
        ))}
      </ul>
      {rows.length < total && more ? (
        <button type="button" class="goto" onClick={more}>
          {`Show ${Math.min(100, total - rows.length)} more of ${total}`}
        </button>
      ) : null}
    </section>
  );
}

function FindingLine({
  row,
  show,
}: {
  readonly row: FindingRow;
  readonly show?: (place: TextPlace) => void;
}) {
  const where = `${row.name} · ${row.where}`;
  return (
    <li class="finding">
      <span class={`severity severity-${row.severity}`}>{row.severity}</span>
      <span class="about mono">{row.about}</span>
      <span class="message">
        {row.message}
        {row.more ? <span class="quiet"> {row.more}</span> : null}
      </span>
      <span class="finding-where small">
        {row.at && show ? (
          <button type="button" class="goto" onClick={() => row.at && show(row.at)}>
            {where}
          </button>
        ) : (
          <span class="quiet">{where}</span>
        )}
      </span>
    </li>
  );
}

function plural(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}
