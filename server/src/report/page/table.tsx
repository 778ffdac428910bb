/** Head of the table and one row with its frame: what the live page and the printed one share. */
import type { TableView } from '../question.ts';
import type { Row, ScaleView } from '../view.ts';
import type { Layout } from './layout.ts';
import { type RowProps, RowView } from './rows.tsx';
import { Ground, StripHead } from './strip.tsx';

interface HeadProps {
  readonly scale: ScaleView;
  readonly layout: Layout;
  /** In which order the links stand, and what brings them into another; a printed table has none to choose. */
  readonly sort?: HeadSort;
}

export interface HeadSort extends Pick<TableView, 'order' | 'turned'> {
  readonly by: (order: TableView['order']) => void;
}

export function TableHead({ scale, layout, sort }: HeadProps) {
  const word = (classes: string, words: string, order?: TableView['order']) => (
    <HeadWord classes={classes} words={words} order={order} sort={sort} />
  );
  return (
    <div class="head-cells" aria-hidden="true">
      {layout === 'narrow' ? (
        <span class="first">link, verdict, tested</span>
      ) : (
        <>
          {word('verdict', 'verdict', 'margin')}
          {word('name', 'link', 'name')}
          {word('length number', 'length', 'length')}
          {word('made', 'tested', 'tested')}
          {word('governing', 'governing limit', 'limit')}
        </>
      )}
      <StripHead scale={scale} few={layout !== 'wide'} />
      {word('margin number', layout === 'narrow' ? 'margin' : 'margin dB', 'margin')}
      {word('note', 'worst reading')}
    </div>
  );
}

interface HeadWordProps extends Pick<HeadProps, 'sort'> {
  readonly classes: string;
  readonly words: string;
  readonly order: TableView['order'] | undefined;
}

/** A click sorts by what stands below; the words over the table do the same for keys. */
function HeadWord({ classes, words, order, sort }: HeadWordProps) {
  if (!sort || !order) return <span class={classes}>{words}</span>;
  const now = sort.order === order;
  return (
    <span class={classes}>
      <button
        type="button"
        tabIndex={-1}
        class={`head-sort${now ? ' current' : ''}`}
        title={now ? 'Turn the order round' : `Sort by ${words}`}
        onClick={() => sort.by(order)}
      >
        {words}
        {now ? (
          <svg class="head-way" width="8" height="8" viewBox="0 0 8 8" aria-hidden="true">
            <path d={sort.turned ? 'M1 6L4 2L7 6' : 'M1 2L4 6L7 2'} />
          </svg>
        ) : null}
      </button>
    </span>
  );
}

/** What lies under the rows: the limit as one line, from the first row to the last. */
export function TableGround({ scale }: { readonly scale: ScaleView }) {
  return (
    <div class="under-rows" aria-hidden="true">
      <Ground scale={scale} />
    </div>
  );
}

/** What the strokes mean; it stays under the table. */
export function KeyLine({ scale }: { readonly scale: ScaleView }) {
  const entries: readonly [string, string][] = [
    ['M6 0V14', 'limit'],
    ['M1 10H11M6 10V2', 'measured A>B'],
    ['M1 4H11M6 4V12', 'measured B>A'],
  ];
  return (
    <p class="key-line small quiet">
      {entries.map(([path, words]) => (
        <span key={words} class="key-entry">
          <svg width="12" height="14" aria-hidden="true">
            <path class={words === 'limit' ? 'key-limit' : 'key-stroke'} d={path} />
          </svg>
          {words}
        </span>
      ))}
      <span class="key-entry">
        <svg width="12" height="14" aria-hidden="true">
          <path class="line expected" d="M6 0V14" />
        </svg>
        expected
      </span>
      <span class="key-entry">upper lane: shorter wavelength</span>
      <span class="key-entry">margin in grey: nothing read, what is expected to be left</span>
      {scale.uncertainty ? (
        <span class="key-entry">
          <svg width="20" height="14" aria-hidden="true">
            <path class="line whisker" d="M0 7H20" />
          </svg>
          uncertainty {scale.uncertainty}
        </span>
      ) : null}
      {scale.wanted === undefined ? null : (
        <span class="key-entry">
          <svg width="12" height="14" aria-hidden="true">
            <path class="key-wanted" d="M6 0V14" />
          </svg>
          margin wanted {scale.wanted.toFixed(2)} dB
        </span>
      )}
    </p>
  );
}

interface FramedProps extends RowProps {
  /** Undefined: as high as its words. */
  readonly height?: number;
  /** Pixels from the top of the table; undefined where rows follow each other. */
  readonly top?: number;
  /** Place among all rows, also those that are not there. */
  readonly index?: number;
  readonly classes?: string;
  readonly click?: (row: Row, twice: boolean) => void;
}

export function FramedRow({ height, top, index, classes = '', click, ...props }: FramedProps) {
  const { row } = props;
  const open = 'open' in row ? row.open : undefined;
  const level = row.kind === 'link' || row.kind === 'fold' ? 1 : row.kind === 'reading' ? 3 : 2;
  return (
    // biome-ignore lint/a11y: the grid holds focus and keys for all its rows, most of which do not exist
    <div
      id={index === undefined ? undefined : `row-${index}`}
      role="row"
      aria-level={level}
      aria-expanded={open}
      aria-rowindex={index === undefined ? undefined : index + 1}
      aria-selected={index === undefined ? undefined : classes.includes('active')}
      class={`row ${row.kind}${open ? ' open' : ''} ${classes}`}
      style={{
        ...(height === undefined ? {} : { height: `${height}px` }),
        ...(top === undefined ? {} : { top: `${top}px` }),
      }}
      onClick={click ? (event) => click(row, event.detail > 1) : undefined}
    >
      {/* biome-ignore lint/a11y: a cell of the grid, read aloud in place of what is drawn */}
      <span role="gridcell" class="unseen">
        {row.spoken}
      </span>
      <RowView {...props} />
    </div>
  );
}
