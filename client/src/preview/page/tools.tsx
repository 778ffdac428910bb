/** Over the table: its order, and what is looked for in it. */
import type { RefObject } from 'preact';
import { count } from '../../../../server/src/report/figures.ts';
import type { Layout } from '../../../../server/src/report/page/layout.ts';
import type { TableView } from '../../../../server/src/report/question.ts';

interface ToolsProps {
  readonly view: TableView;
  readonly change: (change: Partial<TableView>) => void;
  /** Columns that are not shown; only a wide table has any to choose. */
  readonly columns: readonly Column[];
  readonly setColumns: (columns: readonly Column[]) => void;
  readonly layout: Layout;
  readonly take: (form: 'tabs' | 'csv') => void;
  readonly find: RefObject<HTMLInputElement | null>;
  /** Fibres that filter and search leave, and all there are. */
  readonly shown: number;
  readonly all: number;
}

const orders: readonly [TableView['order'], string][] = [
  ['margin', 'worst margin'],
  ['plan', 'plan'],
  ['name', 'name'],
  ['length', 'length'],
  ['tested', 'tested'],
  ['limit', 'limit'],
];

/** What chooses an order; the one that stands is turned round. */
export function sortedBy(
  { order, turned }: TableView,
  by: TableView['order'],
): Pick<TableView, 'order' | 'turned'> {
  return { order: by, turned: by === order && !turned };
}

const groups: readonly [TableView['group'], string][] = [
  ['link', 'link'],
  ['cable', 'cable'],
  ['verdict', 'verdict'],
];

export const columnNames = ['length', 'tested', 'governing limit', 'worst reading'] as const;
export type Column = (typeof columnNames)[number];

/** Classes of a table without these columns. */
export function hiddenColumns(columns: readonly Column[]): string {
  return columns.map((column) => `without-${column.replace(' ', '-')}`).join(' ');
}

export function Tools(props: ToolsProps) {
  const { view, change, find, shown, all, take } = props;
  return (
    <div class="words tools">
      <label>
        <span class="quiet">find </span>
        <input
          ref={find}
          type="search"
          value={view.find}
          placeholder="link, fibre or port"
          onInput={(event) => change({ find: event.currentTarget.value })}
        />
      </label>
      <Choice
        what="order"
        choices={orders}
        now={view.order}
        choose={(order) => change(sortedBy(view, order))}
      />
      <button
        type="button"
        aria-pressed={view.turned}
        class={`word-choice${view.turned ? ' current' : ''}`}
        onClick={() => change({ turned: !view.turned })}
      >
        turned round
      </button>
      <Choice
        what="group"
        choices={groups}
        now={view.group}
        choose={(group) => change({ group, shut: [] })}
      />
      {props.layout === 'wide' ? <Columns {...props} /> : null}
      <span class="words">
        <button type="button" class="word-choice" onClick={() => take('tabs')}>
          Copy all
        </button>
        <button type="button" class="word-choice" onClick={() => take('csv')}>
          Export
        </button>
      </span>
      {shown < all ? (
        <span class="quiet">
          {count(shown)} of {count(all)} fibres shown{' '}
          <button
            type="button"
            class="goto underlined"
            onClick={() => change({ find: '', hidden: [] })}
          >
            Show all {count(all)}
          </button>
        </span>
      ) : null}
    </div>
  );
}

interface ChoiceProps<One extends string> {
  readonly what: string;
  readonly choices: readonly (readonly [One, string])[];
  readonly now: One;
  readonly choose: (one: One) => void;
}

/** One of some words. */
function Choice<One extends string>({ what, choices, now, choose }: ChoiceProps<One>) {
  return (
    <div class="words" role="radiogroup" aria-label={what}>
      <span class="quiet">{what}</span>
      {choices.map(([one, words]) => (
        // biome-ignore lint/a11y/useSemanticElements: words in a row, not a form
        <button
          key={one}
          type="button"
          role="radio"
          aria-checked={now === one}
          class={`word-choice${now === one ? ' current' : ''}`}
          onClick={() => choose(one)}
        >
          {words}
        </button>
      ))}
    </div>
  );
}

function Columns({ columns, setColumns }: Pick<ToolsProps, 'columns' | 'setColumns'>) {
  return (
    <fieldset class="words columns-choice">
      <legend class="unseen">columns</legend>
      <span class="quiet" aria-hidden="true">
        columns
      </span>
      {columnNames.map((column) => {
        const shown = !columns.includes(column);
        const others = columns.filter((each) => each !== column);
        return (
          <button
            key={column}
            type="button"
            aria-pressed={shown}
            class={`word-choice${shown ? ' current' : ''}`}
            onClick={() => setColumns(shown ? [...others, column] : others)}
          >
            {column}
          </button>
        );
      })}
    </fieldset>
  );
}
