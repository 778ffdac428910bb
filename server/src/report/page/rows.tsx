/** Rows of the results table: a link, the head of an opened link, a fibre, a reading, its limits, a fold. */
import type {
  ColumnsRow,
  FibreRow,
  FoldRow,
  LimitsRow,
  LimitView,
  LinkRow,
  ReadingRow,
  Row,
  ScaleView,
  TextPlace,
  Value,
} from '../view.ts';
import { Mark, toneOf, Word } from './mark.tsx';
import { Strip } from './strip.tsx';

export type Layout = 'wide' | 'middle' | 'narrow';

/** Height of a row in pixels: fixed, so that a position in a long table is arithmetic. */
export function heightOf(kind: Row['kind'], lines: number, layout: Layout, dense: boolean): number {
  const narrow = layout === 'narrow';
  switch (kind) {
    case 'link':
      return dense ? 24 : narrow ? 44 : 40;
    case 'columns':
      return narrow ? 24 : 36;
    case 'fibre':
      return narrow ? 18 * Math.max(2, lines) : 24;
    case 'reading':
      return narrow ? 40 : 24;
    case 'limits':
      return (narrow ? 84 : 40) * lines + 8;
    case 'fold':
      return 40;
  }
}

export interface RowProps {
  readonly row: Row;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly dense: boolean;
  readonly show?: (place: TextPlace) => void;
}

export function RowView(props: RowProps) {
  const { row } = props;
  switch (row.kind) {
    case 'link':
      return <LinkCells {...props} row={row} />;
    case 'columns':
      return <ColumnsCells {...props} row={row} />;
    case 'fibre':
      return <FibreCells {...props} row={row} />;
    case 'reading':
      return <ReadingCells {...props} row={row} />;
    case 'limits':
      return <LimitsCells row={row} />;
    case 'fold':
      return <FoldCells {...props} row={row} />;
  }
}

type Of<Kind> = Omit<RowProps, 'row'> & { readonly row: Kind };

function LinkCells({ row, scale, layout, dense }: Of<LinkRow>) {
  const share = row.expected === 0 ? 0 : Math.min(1, row.present / row.expected);
  const made = row.expected === 0 && row.present === 0 ? '' : `${row.present}/${row.expected}`;
  return (
    <>
      <span class="arrow">{row.open ? '▾' : '▸'}</span>
      <span class="verdict">
        {row.verdict ? (
          <>
            <Mark verdict={row.verdict} />
            <Word verdict={row.verdict} />
          </>
        ) : (
          <span class="quiet">not read</span>
        )}
      </span>
      <span class="name">
        <span class="mono">{row.name}</span>
        {dense ? null : (
          <span class="second">{row.title || (row.object === 'channel' ? 'channel' : '')}</span>
        )}
      </span>
      <span class="length number">{row.length}</span>
      <span class="made">
        <svg class="bar" width="32" height="8" aria-hidden="true">
          <rect class="bar-all" x="0.5" y="0.5" width="31" height="7" />
          <rect class="bar-made" x="0" y="0" width={32 * share} height="8" />
        </svg>
        <span class="small">{made}</span>
      </span>
      <span class="governing">
        <span>{row.governing?.kind ?? ''}</span>
        {dense ? null : <span class="second">{row.governing?.figure ?? ''}</span>}
      </span>
      <Strip lanes={row.lanes} scale={scale} height={dense ? 22 : 34} full={false} />
      <span class={`margin number ${row.margin ? toneOf(row.margin.verdict) : ''}`}>
        {row.margin?.text ?? ''}
      </span>
      <span class="where">
        <span>{row.worst[0]}</span>
        {dense || layout === 'narrow' ? null : <span class="second">{row.worst[1]}</span>}
      </span>
    </>
  );
}

function ColumnsCells({ row, layout }: Of<ColumnsRow>) {
  if (layout === 'narrow') {
    return (
      <span class="limits-line small quiet">
        {row.groups.map(({ wavelength, limit }) => `${wavelength} ${limit}`).join(' · ')}
      </span>
    );
  }
  return (
    <>
      <span class="columns-note small quiet">fibre</span>
      <span class="columns-ports small quiet">A, B</span>
      <span class="values">
        {row.groups.map(({ wavelength, limit, directions }) => (
          <span class="group" key={wavelength}>
            <span class="group-head">
              <b>{wavelength}</b> {limit}
            </span>
            <span class="pair">
              {directions.map((direction) => (
                <span key={direction} class="value small quiet">
                  {direction}
                </span>
              ))}
            </span>
          </span>
        ))}
      </span>
      <span class="lanes-note small quiet">{row.lanes}</span>
    </>
  );
}

function FibreCells({ row, scale, layout }: Of<FibreRow>) {
  return (
    <>
      <span class="arrow number quiet">{row.fibre}</span>
      <span class="verdict">
        <Mark verdict={row.verdict} />
        <Word verdict={row.verdict} />
      </span>
      <span class="ports mono small">
        {row.ports[0]} {row.ports[1] ? <span class="quiet">{row.ports[1]}</span> : null}
      </span>
      <span class="values">
        {row.values.map((group, index) => (
          <span class="group" key={index}>
            <span class="pair">
              {group.map((value, at) => (
                <ValueCell key={at} value={value} />
              ))}
            </span>
          </span>
        ))}
      </span>
      <Strip
        lanes={row.lanes}
        scale={scale}
        height={layout === 'narrow' ? 18 * Math.max(2, row.lanes.length) - 2 : 22}
        full={true}
      />
      <span class={`margin number ${row.margin ? toneOf(row.margin.verdict) : ''}`}>
        {row.margin?.text ?? ''}
      </span>
      <span class="where small">{row.note}</span>
    </>
  );
}

function ValueCell({ value }: { readonly value: Value }) {
  if (value.blank) return <span class="value blank" />;
  return <span class={`value number ${toneOf(value.verdict)}`}>{value.text}</span>;
}

function ReadingCells({ row, scale }: Of<ReadingRow>) {
  const quiet = row.current ? '' : ' quiet';
  return (
    <>
      <span class="arrow" />
      <span class={`verdict${quiet}`}>
        <Mark verdict={row.verdict} />
        <Word verdict={row.verdict} />
      </span>
      <span class={`what${quiet}`}>{row.what}</span>
      <span class={`loss number${quiet}`}>{row.loss}</span>
      <span class={`facts small${quiet}`} title={row.facts.join(' · ')}>
        {row.facts.join(' · ')}
      </span>
      <Strip lanes={row.lanes} scale={scale} height={22} full={true} />
      <span class={`margin number ${row.margin ? toneOf(row.margin.verdict) : ''}${quiet}`}>
        {row.margin?.text ?? ''}
      </span>
      <span class="where" />
    </>
  );
}

function LimitsCells({ row }: { readonly row: LimitsRow }) {
  return (
    <span class="limits-lines">
      {row.wavelengths.map(({ wavelength, method, limits, expected }) => (
        <span class="limits-line" key={`${wavelength}${method}`}>
          <b class="small">{wavelength}</b>{' '}
          {method ? <span class="small quiet">{method} </span> : null}
          {limits.map((limit, index) => (
            <LimitWords key={`${limit.kind}${limit.name}`} limit={limit} first={index === 0} />
          ))}
          {expected ? <span class="quiet"> · expected {expected}</span> : null}
        </span>
      ))}
    </span>
  );
}

function LimitWords({ limit, first }: { readonly limit: LimitView; readonly first: boolean }) {
  const sum = limit.terms
    .map(({ sign, what, total }) => `${sign ? ` ${sign} ` : ''}${what} ${total}`)
    .join('');
  const sources = limit.terms
    .map(({ what, working, source }) => `${what}: ${working} (${source})`)
    .join('\n');
  const figure = limit.because ? `none, ${limit.because}` : limit.figure;
  return (
    <span class={limit.governs ? 'governs' : 'quiet'} title={sources}>
      {first ? '' : ' · '}
      <span class="limit-name">
        {limit.kind} {figure}
      </span>
      {limit.beside ? ` beside (${limit.name})` : ''}
      {limit.terms.length > 1 ? ` =${sum.startsWith(' ') ? '' : ' '}${sum}` : ''}
      {limit.terms.length === 1 ? ` (${limit.name})` : ''}
      {limit.recalled ? ' recalled' : ''}
    </span>
  );
}

function FoldCells({ row, scale }: Of<FoldRow>) {
  return (
    <>
      <span class="arrow">{row.open ? '▾' : '▸'}</span>
      <span class="fold-sentence">
        <b>{row.links} links</b> {row.sentence}
      </span>
      <Strip lanes={row.lanes} scale={scale} height={34} full={false} />
      <span class={`margin number ${row.margin ? toneOf(row.margin.verdict) : ''}`}>
        {row.margin?.text ?? ''}
      </span>
      <span class="where small quiet">{row.margin ? 'least margin' : ''}</span>
    </>
  );
}
