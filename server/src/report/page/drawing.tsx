/**
 * The drawing of a link, with the wavelengths to choose from, the sum as an
 * ordered list for who cannot see it, and what the applications say.
 */
import type { Drawing } from '../drawing.ts';
import type { TextPlace } from '../view.ts';
import { Beside } from './beside.tsx';
import { GoTo } from './go-to.tsx';
import { PathAcross } from './path-across.tsx';
import { PathDown } from './path-down.tsx';
import { RingView } from './ring.tsx';
import { TreeView } from './tree.tsx';

interface DrawingProps {
  readonly drawing: Drawing;
  /** Width of the picture, px. */
  readonly width: number;
  readonly narrow: boolean;
  readonly show?: (place: TextPlace) => void;
  readonly choose?: (nanometres: number) => void;
}

export function DrawingView({ drawing, width, narrow, show, choose }: DrawingProps) {
  return (
    <section id="link" class="link-section" aria-label={`Drawing of ${drawing.object}`}>
      <div class="drawing-head">
        <h2>
          <span class="mono">
            <GoTo place={drawing.at} show={show}>
              {drawing.object}
            </GoTo>
          </span>{' '}
          <span class="drawing-title">{drawing.title}</span>
        </h2>
        <Waves drawing={drawing} choose={choose} />
      </div>
      <Picture drawing={drawing} width={width} narrow={narrow} show={show} />
      {drawing.tree || drawing.ring ? (
        <Ways drawing={drawing} />
      ) : (
        <>
          <Rest drawing={drawing} />
          <Sum drawing={drawing} />
        </>
      )}
      {drawing.applications.length > 0 ? (
        <ul class="applications small">
          {drawing.applications.map(({ name, support, row, because }) => (
            <li key={name}>
              <b class="mono">{name}</b> {support}
              <span class="quiet">
                {row ? ` · ${row}` : ''} · {because}
              </span>
            </li>
          ))}
        </ul>
      ) : null}
      <Beside tables={drawing.beside} show={show} />
    </section>
  );
}

type PictureProps = Omit<DrawingProps, 'choose'>;

function Picture({ drawing, width, narrow, show }: PictureProps) {
  const { tree, ring } = drawing;
  const Path = narrow ? PathDown : PathAcross;
  if (tree || ring || drawing.elements.length > 0) {
    return (
      <div class="drawing-frame">
        {tree ? (
          <TreeView tree={tree} width={width} narrow={narrow} show={show} />
        ) : ring ? (
          <RingView ring={ring} width={width} show={show} />
        ) : (
          <Path drawing={drawing} width={width} show={show} />
        )}
      </div>
    );
  }
  return <p class="status quiet">Nothing lies between its ends yet.</p>;
}

/** A tree in words: its ends in order. The table of a ring speaks for itself. */
function Ways({ drawing }: { readonly drawing: Drawing }) {
  const { tree } = drawing;
  if (!tree) return null;
  return (
    <ol class="drawing-list unseen">
      {tree.ends.map((end) => (
        <li key={end.row}>
          {[
            end.name,
            end.alike > 0 ? `and ${end.alike} alike` : '',
            end.length,
            end.figure ? `${end.figure} dB` : 'no figure',
            end.limit ? `limit ${end.limit.figure} dB` : '',
            end.readings.length > 0 ? end.verdict : 'untested',
          ]
            .filter(Boolean)
            .join(', ')}
        </li>
      ))}
    </ol>
  );
}

function Waves({ drawing, choose }: Pick<DrawingProps, 'drawing' | 'choose'>) {
  const { wavelengths, chosen } = drawing;
  if (!choose) {
    const one = wavelengths.find(({ nanometres }) => nanometres === chosen);
    return <span class="strong">{one?.label}</span>;
  }
  const step = (event: KeyboardEvent) => {
    const way = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    const at = wavelengths.findIndex(({ nanometres }) => nanometres === chosen);
    const next = wavelengths[at + way];
    if (way === 0 || !next) return;
    event.preventDefault();
    choose(next.nanometres);
    const words = (event.currentTarget as HTMLElement).children;
    (words[at + way] as HTMLElement | undefined)?.focus();
  };
  return (
    <div class="words waves" role="radiogroup" aria-label="Wavelength" onKeyDown={step}>
      {wavelengths.map(({ nanometres, label }) => (
        // biome-ignore lint/a11y/useSemanticElements: words in a row, not a form
        <button
          key={label}
          type="button"
          role="radio"
          aria-checked={nanometres === chosen}
          tabIndex={nanometres === chosen ? 0 : -1}
          class={`word-choice${nanometres === chosen ? ' current' : ''}`}
          onClick={() => choose(nanometres)}
        >
          {label}
        </button>
      ))}
    </div>
  );
}

/** What the last step behind B is made of. */
function Rest({ drawing: { rest, allowed } }: { readonly drawing: Drawing }) {
  if (rest.length === 0 || !allowed) return null;
  const words = rest.map(({ what, figure }) => `${what} ${figure}`).join(', ');
  return <p class="small quiet drawing-key">{`In the sum and at no one place: ${words} dB`}</p>;
}

/** The drawing in words: elements in order, then the sum. */
function Sum({ drawing }: { readonly drawing: Drawing }) {
  const { elements, rest, allowed, limit, setup, traced } = drawing;
  const most = allowed?.kind === undefined ? 'at most' : 'most allowed';
  return (
    <div class="unseen">
      <ol class="drawing-list">
        {elements.map((element, index) => (
          <li key={index}>
            {[
              [element.name, element.kind, element.what, element.mark].filter(Boolean).join(', '),
              element.counted ? '' : 'not in the reading',
              element.allowed ? `${most} ${element.allowed.text} dB` : '',
              element.expected ? `expected ${element.expected.text} dB` : '',
              ...traced
                .filter((seen) => seen.element === index)
                .map(({ figure, fibre }) => `traced ${figure} dB on ${fibre}`),
              element.severity ?? '',
            ]
              .filter(Boolean)
              .join(', ')}
          </li>
        ))}
        {rest.map(({ what, figure }) => (
          <li key={what}>{`${what}, ${figure} dB`}</li>
        ))}
      </ol>
      <p class="drawing-sum">
        {allowed
          ? `Sum ${[`${allowed.figure} dB`, allowed.kind, allowed.name].filter(Boolean).join(', ')}. `
          : 'No sum. '}
        {limit ? `Limit ${limit.figure} dB, ${limit.kind}. ` : ''}
        {setup ? `${setup.sentence}. ` : ''}
        {drawing.labels.map(({ text }) => text).join(', ')}
      </p>
    </div>
  );
}
