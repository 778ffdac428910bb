/** Small tables of what is known beside the losses. */
import type { BesideTable } from '../beside.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';
import { GoTo } from './go-to.tsx';

interface BesideProps {
  readonly tables: readonly BesideTable[];
  readonly show?: (place: TextPlace) => void;
}

export function Beside({ tables, show }: BesideProps) {
  return (
    <>
      {tables.map((table) => (
        <Table key={table.title} table={table} show={show} />
      ))}
    </>
  );
}

function Table({
  table,
  show,
}: {
  readonly table: BesideTable;
  readonly show: BesideProps['show'];
}) {
  const { title, heads, figures, rows, more } = table;
  const figure = (column: number) => (figures.includes(heads[column] ?? '') ? 'figure' : '');
  return (
    <div class="beside-frame">
      <table class="beside small">
        <caption>{title}</caption>
        <thead>
          <tr>
            {heads.map((head, column) => (
              <th key={head} scope="col" class={figure(column)}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ cells, verdict, note, place }, index) => (
            <tr key={index}>
              {cells.map((cell, column) => {
                const isVerdict = verdict !== undefined && column === cells.length - 1;
                return (
                  <td
                    key={column}
                    class={isVerdict ? toneOf(verdict) : figure(column)}
                    data-head={cell ? heads[column] : undefined}
                  >
                    {column === 0 ? (
                      <GoTo place={place} show={show}>
                        {cell}
                      </GoTo>
                    ) : (
                      cell
                    )}
                  </td>
                );
              })}
              <td class="quiet beside-note">{note}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {more > 0 ? <p class="quiet small">{`and ${more} more, in the JSON form`}</p> : null}
    </div>
  );
}

function toneOf(verdict: NonNullable<BesideTable['rows'][number]['verdict']>): string {
  const { tone, strong } = lookOf(verdict);
  return [tone === 'ink' ? '' : `text-${tone}`, strong ? 'strong' : ''].filter(Boolean).join(' ');
}
