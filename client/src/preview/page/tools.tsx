/** Over the table: its order, and what is looked for in it. */
import type { RefObject } from 'preact';
import { count } from '../../../../server/src/report/figures.ts';
import type { TableView } from '../../../../server/src/report/question.ts';

interface ToolsProps {
  readonly view: TableView;
  readonly change: (change: Partial<TableView>) => void;
  readonly find: RefObject<HTMLInputElement | null>;
  /** Fibres that filter and search leave, and all there are. */
  readonly shown: number;
  readonly all: number;
}

const orders: readonly [TableView['order'], string][] = [
  ['margin', 'worst margin'],
  ['plan', 'plan'],
  ['name', 'name'],
];

export function Tools({ view, change, find, shown, all }: ToolsProps) {
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
      <div class="words" role="radiogroup" aria-label="Order">
        <span class="quiet">order</span>
        {orders.map(([order, words]) => (
          // biome-ignore lint/a11y/useSemanticElements: words in a row, not a form
          <button
            key={order}
            type="button"
            role="radio"
            aria-checked={view.order === order}
            class={`word-choice${view.order === order ? ' current' : ''}`}
            onClick={() => change({ order })}
          >
            {words}
          </button>
        ))}
      </div>
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
