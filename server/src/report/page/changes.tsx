/**
 * The comparison of two states of a plan: what it comes to, what asks for an
 * answer, then each change with its effects. One limit line runs through all
 * of them; what a margin was is a dashed stroke, what it is a whole one.
 */
import type { ChangesView } from '../changes/view.ts';
import { count, counted } from '../figures.ts';
import { ChangeItem } from './changes-cause.tsx';
import { ChangesHead } from './changes-head.tsx';
import { PlaceLink, Places, type ShowSide } from './changes-place.tsx';
import type { Layout } from './layout.ts';
import { Sideways } from './sideways.tsx';
import { Ground, StripHead } from './strip.tsx';

interface ChangesProps {
  readonly changes: ChangesView;
  readonly layout: Layout;
  /** Undefined on paper: places are words. */
  readonly show?: ShowSide;
  /** Opens all effects of a change, or shuts them; undefined: all stand open as far as they go. */
  readonly toggle?: (number: number) => void;
  readonly open?: ReadonlySet<number>;
  /** Numbers of the changes that the cursor of the text stands in. */
  readonly marked?: ReadonlySet<number>;
}

export function Changes({ changes, layout, show, toggle, open, marked }: ChangesProps) {
  const { scale, asks, retest, repeat } = changes;
  const drawn = changes.changes.some(({ effects }) => effects.length > 0);
  const table = (
    <>
      {layout === 'narrow' || !drawn ? null : (
        <div class="change-tracks head-cells changes-columns" aria-hidden="true">
          <span>change and cause</span>
          <span class="effect-where">where</span>
          <span>verdict</span>
          <StripHead scale={scale} few />
          <span class="number">margin, was now</span>
        </div>
      )}
      <div class="changes-body">
        {layout === 'narrow' || !drawn ? null : (
          <div class="under-rows change-tracks" aria-hidden="true">
            <Ground scale={scale} />
          </div>
        )}
        <ol class="changes-list">
          {changes.changes.map((change) => (
            <ChangeItem
              key={change.number}
              change={change}
              scale={scale}
              layout={layout}
              show={show}
              toggle={toggle}
              open={open?.has(change.number) ?? false}
              marked={marked?.has(change.number) ?? false}
            />
          ))}
        </ol>
      </div>
    </>
  );
  return (
    <>
      <ChangesHead changes={changes} />
      {asks.length > 0 ? <Asks asks={asks} show={show} /> : null}
      <section aria-label="Changes" id="changes">
        {show ? table : <Sideways says="Changes and their effects">{table}</Sideways>}
        {drawn ? <ChangesKey /> : null}
      </section>
      {retest.length > 0 ? <Again retest={retest} repeat={repeat} show={show} /> : null}
    </>
  );
}

function Asks({
  asks,
  show,
}: {
  readonly asks: ChangesView['asks'];
  readonly show: ShowSide | undefined;
}) {
  return (
    <section aria-label="Asks for an answer" id="asks">
      <h2>
        Asks for an answer <span class="small quiet">{count(asks.length)}</span>
      </h2>
      <ul class="asks">
        {asks.map(({ name, message, places, change }, index) => (
          <li key={index}>
            <span class="strong text-fail mono">{name}</span>
            <span>{message}</span>
            <span class="small asks-where">
              {change === undefined ? null : <span class="quiet">change {change} </span>}
              <Places places={places} show={show} />
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

interface AgainProps extends Pick<ChangesView, 'retest' | 'repeat'> {
  readonly show: ShowSide | undefined;
}

/** What is to be measured again: a line a reason, with the objects that it holds for. */
function Again({ retest, repeat, show }: AgainProps) {
  const reasons = new Map<string, (typeof retest)[number][]>();
  for (const row of retest) {
    const rows = reasons.get(row.because);
    if (rows) rows.push(row);
    else reasons.set(row.because, [row]);
  }
  const listed = retest.reduce((sum, { readings }) => sum + readings, 0);
  return (
    <section aria-label="To measure again" id="again">
      <h2>
        To measure again <span class="small quiet">{counted(repeat, 'reading')}</span>
      </h2>
      <ul class="again">
        {[...reasons].map(([because, rows]) => (
          <li key={because}>
            <span>
              {counted(
                rows.reduce((sum, { readings }) => sum + readings, 0),
                'reading',
              )}
            </span>
            <span>{because}</span>
            <span class="again-objects small mono">
              {rows.map(({ object, fibres, place }) => (
                <span key={object} class="again-object">
                  <PlaceLink place={place} show={show}>
                    {object}
                  </PlaceLink>{' '}
                  {fibres}
                </span>
              ))}
            </span>
          </li>
        ))}
      </ul>
      {repeat > listed ? <p class="small quiet">and more, in the JSON form</p> : null}
    </section>
  );
}

function ChangesKey() {
  const entries: readonly (readonly [string, string, string])[] = [
    ['key-limit', 'M6 0V14', 'limit'],
    ['line expected', 'M6 1V13', 'margin as it was'],
    ['key-now', 'M6 1V13', 'margin as it is'],
  ];
  return (
    <p class="key-line small quiet">
      {entries.map(([kind, path, words]) => (
        <span key={words} class="key-entry">
          <svg width="12" height="14" aria-hidden="true">
            <path class={kind} d={path} />
          </svg>
          {words}
        </span>
      ))}
    </p>
  );
}
