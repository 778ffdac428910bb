/** Cells of the rows of the results table, by their kinds. */
import { counted } from '../figures.ts';
import { lookOf, rankOf } from '../verdicts.ts';
import type {
  ColumnsRow,
  FibreRow,
  FoldRow,
  LinkRow,
  ReadingRow,
  Row,
  ScaleView,
  Value,
} from '../view.ts';
import { heightOf, type Layout } from './layout.ts';
import { LimitsCells } from './limits.tsx';
import { Mark, toneOf, Word } from './mark.tsx';
import { Strip } from './strip.tsx';

export interface RowProps {
  readonly row: Row;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly dense: boolean;
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

/** What an object is, where it has no title to say it. */
const objectInWords: Readonly<Record<LinkRow['object'], string>> = {
  link: '',
  channel: 'channel',
  ring: 'ring',
  section: 'the cable by itself',
};

/** The greatest height of strips in rows that are one line high, px. */
const lineStrip = 22;

function LinkCells({ row, scale, layout, dense }: Of<LinkRow>) {
  const narrow = layout === 'narrow';
  const made = row.expected === 0 && row.present === 0 ? '' : `${row.present}/${row.expected}`;
  return (
    <>
      <Arrow open={row.open} />
      <span class="verdict">
        {row.verdict ? (
          <>
            <Mark verdict={row.verdict} />
            <Word verdict={row.verdict} />
          </>
        ) : (
          <span class="quiet">not read</span>
        )}
        {narrow && !dense ? (
          <span class="small quiet tested">{made || row.worst.filter(Boolean).join(' ')}</span>
        ) : null}
      </span>
      <span class="name">
        <span class="mono">{row.name}</span>
        {dense || narrow ? null : (
          <span class="second">{row.title || objectInWords[row.object]}</span>
        )}
      </span>
      <span class="length number quiet">{row.length}</span>
      <span class="made">
        {made ? <Bar share={row.expected === 0 ? 1 : row.present / row.expected} /> : null}
        <span class="quiet">
          <span class={row.present < row.expected ? 'made-figure' : ''}>{made && row.present}</span>
          {made ? `/${row.expected}` : ''}
        </span>
      </span>
      <span class="governing">
        <span>{row.governing?.kind ?? ''}</span>
        {dense ? null : <span class="second">{row.governing?.figure ?? ''}</span>}
      </span>
      <Strip
        lanes={row.lanes}
        reach={scale.reach}
        height={dense ? lineStrip : narrow ? 40 : 36}
        full={false}
      />
      <Margin
        margin={row.margin}
        none={row.byDesign?.text ?? (row.verdict === 'invalid' ? 'none' : '')}
      />
      <span class="note" title={[...row.worst, row.byDesign?.what].filter(Boolean).join(', ')}>
        {dense ? (
          row.worst.filter(Boolean).join(', ')
        ) : (
          <>
            <span class={row.margin ? '' : 'quiet'}>{row.worst[0]}</span>
            <span class="second">{row.worst[1]}</span>
          </>
        )}
      </span>
    </>
  );
}

function Arrow({ open }: { readonly open: boolean }) {
  return (
    <svg class="arrow" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
      <path d={open ? 'M2.5 4.5L6 8L9.5 4.5' : 'M4.5 2.5L8 6L4.5 9.5'} />
    </svg>
  );
}

function Bar({ share }: { readonly share: number }) {
  return (
    <svg class="bar" width="32" height="8" aria-hidden="true">
      <rect class="bar-all" x="0.5" y="0.5" width="31" height="7" />
      <rect class="bar-made" x="0" y="0" width={32 * Math.min(1, share)} height="8" />
    </svg>
  );
}

function Margin({ margin, none = '' }: { margin: LinkRow['margin']; none?: string }) {
  return (
    <span class={`margin number ${margin ? toneOf(margin.verdict) : 'text-quiet'}`}>
      {margin?.text ?? none}
    </span>
  );
}

/** Columns of values that fit beside a strip; with more of them a wavelength keeps one. */
const mostColumns = 4;

function fits(groups: readonly { readonly length: number }[]): boolean {
  return groups.reduce((sum, { length }) => sum + length, 0) <= mostColumns;
}

/** One direction alone is narrower than its head with the limit in it, and takes the head's width. */
function pairClass(all: boolean, layout: Layout, group: readonly unknown[]): string {
  return all && layout === 'wide' && group.length === 1 ? 'pair alone' : 'pair';
}

function ColumnsCells({ row, layout }: Of<ColumnsRow>) {
  const all = fits(row.groups.map(({ directions }) => directions));
  if (layout === 'narrow') {
    const [first] = row.groups;
    return (
      <>
        <span class="first small quiet">
          <span class="fibre-number">{row.numbered}</span>
          <span class="values">
            {first?.directions.map((direction) => (
              <span key={direction} class="value">
                {direction}
              </span>
            ))}
          </span>
        </span>
        <span class="lanes-note small quiet">
          {row.groups.map(({ wavelength }) => wavelength.replace(' nm', '')).join(' / ')} nm
        </span>
      </>
    );
  }
  return (
    <>
      <span class="columns-note small quiet">{row.numbered}</span>
      <span class="columns-ports small quiet">ports</span>
      <span class="values">
        {row.groups.map(({ wavelength, limit, directions }) => (
          <span class="group" key={wavelength}>
            <span class="group-head">
              <b>{wavelength}</b>
              {layout === 'wide' && all ? <span class="group-limit"> {limit}</span> : null}
            </span>
            <span class={pairClass(all, layout, directions)}>
              {(all ? directions : ['greater']).map((direction) => (
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
  const all = fits(row.values);
  const ports = row.ports.filter(Boolean).join(' – ');
  const values = (
    <span class="values">
      {row.values.map((group, index) => (
        <span class={pairClass(all, layout, group)} key={index}>
          {(all || layout === 'narrow' ? group : [greatest(group)]).map((value, at) => (
            <ValueCell key={at} value={value} />
          ))}
        </span>
      ))}
    </span>
  );
  const verdict = (
    <span class="verdict">
      <Mark verdict={row.verdict} />
      <Word verdict={row.verdict} />
    </span>
  );
  const lines = Math.max(1, row.values.length);
  const height = layout === 'narrow' ? heightOf('fibre', lines, layout, false) - 2 : lineStrip;
  return (
    <>
      {layout === 'narrow' ? (
        <span class="first">
          <span class="fibre-number quiet">{row.label}</span>
          {verdict}
          {values}
        </span>
      ) : (
        <>
          <span class="fibre-number number quiet">{row.label}</span>
          {verdict}
          <span class="ports mono small quiet">{ports}</span>
          {values}
        </>
      )}
      <Strip lanes={row.lanes} reach={scale.reach} height={height} full={true} />
      <Margin margin={row.margin} />
      <span class="note small quiet" title={row.note}>
        {row.note}
      </span>
    </>
  );
}

/** The value that asks for most: to be read first, then the worst verdict, then the greatest loss. */
function greatest(group: readonly Value[]): Value {
  return group.reduce((worst, value) => {
    const rank = rankOf(value.verdict) - rankOf(worst.verdict);
    return rank < 0 || (rank === 0 && Number(value.text) > Number(worst.text)) ? value : worst;
  });
}

function ValueCell({ value }: { readonly value: Value }) {
  if (value.blank) {
    return (
      <span class="value">
        <span class="blank" />
      </span>
    );
  }
  return <span class={`value ${toneOf(value.verdict)}`}>{value.text}</span>;
}

function ReadingCells({ row, scale, layout }: Of<ReadingRow>) {
  const facts = row.facts.join(' · ');
  const made = row.made.join(' · ');
  const whole = [facts, made].filter(Boolean).join(' · ');
  return (
    <>
      <span class="reading-what small">
        <Mark verdict={row.verdict} />
        <span class={`text-${row.current ? 'ink' : 'quiet'}`}>{row.what}</span>
        <span class={`value ${row.current ? toneOf(row.verdict) : 'text-quiet'}`}>
          {row.loss || <span class="blank" />}
        </span>
      </span>
      <span class="reading-facts small quiet" title={whole}>
        {layout === 'narrow' ? whole : facts}
      </span>
      <Strip lanes={row.lanes} reach={scale.reach} height={lineStrip} full={true} />
      <Margin margin={row.margin} />
      <span class="note small quiet" title={made}>
        {made}
      </span>
    </>
  );
}

function FoldCells({ row, scale, layout }: Of<FoldRow>) {
  // A narrow row has room for what they are, not for why they are folded.
  const [short = ''] = row.sentence.split(',');
  return (
    <>
      <Arrow open={row.open} />
      <span class="fold-sentence">
        {row.fold === 'group' ? (
          <>
            {row.verdict ? <Mark verdict={row.verdict} /> : null}{' '}
            <b class={row.verdict ? '' : 'mono'}>
              {row.verdict ? lookOf(row.verdict).word : row.group || 'in no cable'}
            </b>{' '}
            <span class="quiet">{counted(row.links, 'link')}</span>
          </>
        ) : (
          <>
            <Mark verdict={row.fold} /> <b>{row.links.toLocaleString('en')} links</b>{' '}
            <span class="quiet">{layout === 'narrow' ? short : row.sentence}</span>
          </>
        )}
      </span>
      <Strip lanes={row.lanes} reach={scale.reach} height={36} full={false} />
      <Margin margin={row.margin} />
      <span class="note quiet">{row.margin ? 'least margin' : 'nothing tested'}</span>
    </>
  );
}
