/** A document for paper as one HTML file: nothing fetched, no script, black on white, on A4 and on Letter. */
import type { JSX } from 'preact';
import renderToString from 'preact-render-to-string';
import type { Block, Cell, Column, Paper, Run, Table } from '../paper/blocks.ts';
import { markSvg } from '../paper/mark-svg.ts';
import sheet from './paper-document.css';
import { Sideways } from './sideways.tsx';

/** Tables of so few rows stand on one page. */
const keptTogether = 6;

export function printPaper(paper: Paper): string {
  const { title, foot, stamp, seal, blocks } = paper;
  const body = renderToString(
    <main>
      {stamp ? (
        <p class="stamp" aria-hidden="true">
          {stamp}
        </p>
      ) : null}
      {blocks.map((block, index) => (
        <BlockView key={index} block={block} />
      ))}
    </main>,
  );
  const head = renderToString(
    <>
      <meta charset="utf-8" />
      <meta
        http-equiv="Content-Security-Policy"
        content="default-src 'none'; style-src 'unsafe-inline'"
      />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      {seal ? <meta name="linkwright-record" content={seal} /> : null}
      <title>{title}</title>
    </>,
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
${head}
<style>${sheet}
${margins(foot, stamp)}</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** Foot and stamp stand in the margins of every printed page. */
function margins(foot: string, stamp: string | undefined): string {
  const top = stamp ? `@top-right { content: ${inCss(stamp)}; font-weight: 700; }` : '';
  return `@page { @bottom-left { content: ${inCss(foot)}; } @bottom-right { content: "page " counter(page) " of " counter(pages); } ${top} }`;
}

/** A text as a string of a style sheet, in which no character can end it. */
function inCss(text: string): string {
  const inner = [...text]
    .map((each) => (/[\w ]/u.test(each) ? each : `\\${each.codePointAt(0)!.toString(16)} `))
    .join('');
  return `"${inner}"`;
}

function BlockView({ block }: { readonly block: Block }): JSX.Element {
  switch (block.kind) {
    case 'heading':
      return <HeadingView block={block} />;
    case 'text':
      return (
        <p class={block.large ? 'large' : ''}>
          <Runs runs={block.runs} />
        </p>
      );
    case 'list': {
      const items = block.items.map((runs, index) => (
        <li key={index}>
          <Runs runs={runs} />
        </li>
      ));
      return block.numbered ? <ol>{items}</ol> : <ul>{items}</ul>;
    }
    case 'facts':
      return (
        <dl>
          {block.rows.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      );
    case 'box':
      return (
        <aside class="box">
          <strong>{block.title}</strong>
          {block.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </aside>
      );
    case 'table':
      return <TableView table={block} />;
    case 'picture':
      return (
        <figure>
          <Drawn {...block} />
        </figure>
      );
    case 'blanks':
      return (
        <div class="blanks">
          {block.labels.map((label) => (
            <p key={label}>
              <span>{label}</span>
            </p>
          ))}
        </div>
      );
  }
}

function HeadingView({ block }: { readonly block: Extract<Block, { kind: 'heading' }> }) {
  const Tag = `h${block.level}` as const;
  return (
    <Tag class={block.newPage ? 'new-page' : ''}>
      {block.text}
      {block.note ? <small>{block.note}</small> : null}
    </Tag>
  );
}

function Runs({ runs }: { readonly runs: readonly Run[] }) {
  return (
    <>
      {runs.map((run, index) => {
        if (typeof run === 'string') return run;
        return run.look === 'strong' ? (
          <strong key={index}>{run.text}</strong>
        ) : (
          <span key={index} class="quiet">
            {run.text}
          </span>
        );
      })}
    </>
  );
}

function TableView({ table }: { readonly table: Table }) {
  const { caption, groups, columns, rows, byHand } = table;
  return (
    <Sideways says={caption ?? columns.flatMap(({ head }) => head || []).join(', ')}>
      <table
        class={[byHand ? 'by-hand' : '', rows.length <= keptTogether ? 'together' : ''].join(' ')}
      >
        {caption ? <caption>{caption}</caption> : null}
        <thead>
          {groups ? (
            <tr>
              {groups.map(({ text, span }, index) =>
                text ? (
                  <th key={index} colSpan={span} class="group">
                    {text}
                  </th>
                ) : (
                  <td key={index} colSpan={span} />
                ),
              )}
            </tr>
          ) : null}
          <tr>
            {columns.map((column, index) =>
              column.head ? (
                <th key={index} class={classOf(column)}>
                  {column.head}
                </th>
              ) : (
                <td key={index} />
              ),
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, index) => (
            <tr key={index}>
              {cells.map((cell, at) => (
                <CellView key={at} cell={cell} column={columns[at]} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Sideways>
  );
}

function CellView({ cell, column }: { readonly cell: Cell; readonly column: Column | undefined }) {
  const own = classOf(column);
  if (typeof cell === 'string') return <td class={own}>{cell}</td>;
  if ('svg' in cell) {
    return (
      <td class={own}>
        <Drawn {...cell} />
      </td>
    );
  }
  const classes = [own, cell.look, cell.blank ? 'blank' : ''].filter(Boolean).join(' ');
  return (
    <td class={classes}>
      {cell.verdict ? (
        <span
          class="mark"
          // Drawn here, from a table of shapes.
          dangerouslySetInnerHTML={{ __html: markSvg(cell.verdict) }}
        />
      ) : null}
      {cell.text}
    </td>
  );
}

interface DrawnProps {
  readonly svg: string;
  readonly says: string;
}

function Drawn({ svg, says }: DrawnProps) {
  return (
    <span
      class="picture"
      role="img"
      aria-label={says}
      // Drawn by this tool, names in it escaped.
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}

function classOf(column: Column | undefined): string | undefined {
  const classes = [column?.align === 'right' ? 'right' : '', column?.grows ? 'grows' : ''];
  return classes.filter(Boolean).join(' ') || undefined;
}
