/** Head of a comparison: what is compared, what it comes to, and verdicts before against verdicts after. */
import type { Verdict } from '../../evaluate/result.ts';
import type { ChangesView, MatrixView } from '../changes/view.ts';
import { count } from '../figures.ts';
import { lookOf } from '../verdicts.ts';
import { Mark } from './mark.tsx';

export function ChangesHead({ changes }: { readonly changes: ChangesView }) {
  const { title, compared, counted, sentences, matrix } = changes;
  return (
    <header class="head changes-head">
      <div class="changes-said">
        <h1>{title}</h1>
        <p class="small">
          <span class="quiet">{compared} · </span>
          <b>{counted}</b>
        </p>
        <div class="changes-sentences">
          {sentences.map((pieces, index) => (
            <p key={index}>
              {pieces.map(({ text, strong }, part) =>
                strong ? <b key={part}>{text}</b> : <span key={part}>{text}</span>,
              )}
            </p>
          ))}
        </div>
      </div>
      {matrix ? <VerdictMatrix matrix={matrix} /> : null}
    </header>
  );
}

function VerdictMatrix({ matrix }: { readonly matrix: MatrixView }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys (WCAG 2.1.1)
    <section class="verdict-matrix-frame" aria-label="Verdicts before and after" tabIndex={0}>
      <table class="verdict-matrix">
        <caption class="small quiet">readings by verdict: before in rows, after in columns</caption>
        <thead>
          <tr>
            <td />
            {matrix.columns.map(({ after }) => (
              <th key={after} scope="col" class="small">
                <Stand verdict={after} other="gone" stacked />
              </th>
            ))}
            <th scope="col" class="small quiet">
              before
            </th>
          </tr>
        </thead>
        <tbody>
          {matrix.rows.map(({ before, cells, total }) => (
            <tr key={before}>
              <th scope="row" class="small">
                <Stand verdict={before} other="new" />
              </th>
              {cells.map(({ after, count: readings, same }) => (
                <td
                  key={after}
                  class={[same ? 'same' : '', readings > 0 && !same ? 'strong' : '']
                    .filter(Boolean)
                    .join(' ')}
                >
                  {readings > 0 ? (
                    count(readings)
                  ) : (
                    <>
                      <span class="nought" aria-hidden="true">
                        ·
                      </span>
                      <span class="unseen">0</span>
                    </>
                  )}
                </td>
              ))}
              <td class="small quiet">{count(total)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" class="small quiet">
              after
            </th>
            {matrix.columns.map(({ after, total }) => (
              <td key={after} class="small quiet">
                {count(total)}
              </td>
            ))}
            <td class="small quiet">{count(matrix.total)}</td>
          </tr>
        </tfoot>
      </table>
    </section>
  );
}

interface StandProps {
  readonly verdict: Verdict | 'none';
  /** Word for what is on one side only. */
  readonly other: string;
  readonly stacked?: boolean;
}

function Stand({ verdict, other, stacked = false }: StandProps) {
  if (verdict === 'none') return <span class="quiet">{other}</span>;
  const { word, tone, strong } = lookOf(verdict);
  return (
    <span class={stacked ? 'stand stacked' : 'stand'}>
      <Mark verdict={verdict} />
      <span class={`text text-${tone}${strong ? ' strong' : ''}`}>{word}</span>
    </span>
  );
}
