/**
 * Coverage: what is read, what is to be read and to be read again. A cell is a
 * reading; its form says its verdict, the open square being work to do. Of a
 * large plan a line a cable, drawn to one scale.
 */
import { useState } from 'preact/hooks';
import type { Verdict } from '../../evaluate/result.ts';
import type { CoverageLine, CoverageMatrix, CoverageView } from '../coverage.ts';
import { count, counted } from '../figures.ts';
import { lookOf, rankOf } from '../verdicts.ts';

export interface Cell {
  readonly object: string;
  readonly fibre: number;
  readonly wavelength: number;
  readonly direction: string;
}

interface CoverageProps {
  readonly coverage: CoverageView;
  /** Of the page's inside, px. */
  readonly width: number;
  readonly go?: (cell: Cell) => void;
  /** Opens a cable into the matrices of its links; undefined: back to all cables. */
  readonly openCable?: (cable: string | undefined) => void;
  readonly opened?: string;
}

export function Coverage({ coverage, width, go, openCable, opened }: CoverageProps) {
  const { present, expected, toMake, toRepeat, lines, matrices, more } = coverage;
  const sums = [
    `${count(present)} of ${count(expected)} readings made`,
    toMake > 0 ? `${count(toMake)} to test` : '',
    toRepeat > 0 ? `${count(toRepeat)} to repeat` : '',
  ].filter(Boolean);
  const seen = new Set(matrices.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells)));
  return (
    <section id="coverage" aria-label="Coverage">
      <h2>
        Coverage <span class="small quiet">{sums.join(', ')}</span>
      </h2>
      {opened === undefined ? null : (
        <p class="small">
          {opened ? <b class="mono">{opened}</b> : 'in no cable'}{' '}
          <button type="button" class="goto" onClick={() => openCable?.(undefined)}>
            Show all cables
          </button>
        </p>
      )}
      {lines.length > 0 ? <Lines lines={lines} open={openCable} /> : null}
      <div class="matrices">
        {matrices.map((matrix) => (
          <Matrix key={matrix.name} matrix={matrix} width={width} go={go} />
        ))}
      </div>
      {more > 0 ? (
        <p class="small quiet">and {counted(more, 'more link')}, all further down the table</p>
      ) : null}
      {matrices.length > 0 ? <CellKey seen={seen} /> : null}
    </section>
  );
}

const side = 14;
const between = 3;
const labels = 64;
const headHeight = 16;
const mostAcross = 24;

/** Fibres in one row of a matrix: 24, or as many sixes as fit. */
function across(width: number): number {
  const fit = Math.floor((width - labels) / side / 6) * 6;
  return Math.max(6, Math.min(mostAcross, fit));
}

interface MatrixProps {
  readonly matrix: CoverageMatrix;
  readonly width: number;
  readonly go: ((cell: Cell) => void) | undefined;
}

function Matrix({ matrix, width, go }: MatrixProps) {
  const [at, setAt] = useState<readonly [row: number, fibre: number]>();
  const { name, fibres, rows, todo, which, complete } = matrix;
  const per = across(width);
  const bands = Math.ceil(fibres.length / per);
  const tops = topsOf(matrix);
  const bandHeight = headHeight + (tops.at(-1) ?? 0) + side + 4;
  const size = {
    width: labels + Math.min(per, fibres.length) * side + 4,
    height: bands * bandHeight,
  };
  const place = (row: number, fibre: number): readonly [number, number] => [
    labels + (fibre % per) * side + side / 2,
    Math.floor(fibre / per) * bandHeight + headHeight + (tops[row] ?? 0) + side / 2,
  ];
  const picture = (
    <svg class="matrix" aria-hidden="true" {...size}>
      {Array.from({ length: bands }, (_, band) => (
        <Band
          key={band}
          matrix={matrix}
          from={band * per}
          per={per}
          top={band * bandHeight}
          tops={tops}
        />
      ))}
      {[...marksOf(matrix, place)].map(([verdict, d]) => (
        <path key={verdict} class={`cell cell-${verdict} tone-${lookOf(verdict).tone}`} d={d} />
      ))}
      {at ? <Cursor at={place(...at)} /> : null}
    </svg>
  );
  const words = `${name}: ${[todo, which].filter(Boolean).join(', ')}`;
  const head = (
    <p class="matrix-head">
      <b class="mono">{name}</b> <span class={complete ? 'quiet' : ''}>{todo}</span>{' '}
      <span class="small quiet">{which}</span>
    </p>
  );
  if (!go) {
    return (
      <div class="matrix-frame">
        {head}
        <div role="img" aria-label={words}>
          {picture}
        </div>
      </div>
    );
  }
  const chosen = at && spokenCell(matrix, at);
  const goTo = ([row, fibre]: readonly [number, number]) => {
    const one = rows[row];
    const of = fibres[fibre];
    if (!one || !of || !one.cells[fibre]) return;
    go({ object: name, fibre: of.fibre, wavelength: one.picometres, direction: one.direction });
  };
  const key = (event: KeyboardEvent) => {
    const now = at ?? [0, 0];
    if (event.key === 'Enter') {
      goTo(now);
      return event.preventDefault();
    }
    const next = stepped(now, event.key, rows.length, fibres.length);
    if (!next) return;
    setAt(next);
    event.preventDefault();
  };
  const click = (event: MouseEvent) => {
    const { left, top } = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const fibreInBand = Math.floor((event.clientX - left - labels) / side);
    const band = Math.floor((event.clientY - top) / bandHeight);
    const y = (event.clientY - top) % bandHeight;
    const row = tops.findIndex((each) => y >= headHeight + each && y < headHeight + each + side);
    const fibre = band * per + fibreInBand;
    if (row < 0 || fibreInBand < 0 || fibreInBand >= per || fibre >= fibres.length) return;
    setAt([row, fibre]);
    goTo([row, fibre]);
  };
  const cellId = `cell-${name.replaceAll(/[^\w-]/gu, '_')}`;
  return (
    <div class="matrix-frame">
      {head}
      {/* biome-ignore lint/a11y: one stop for all cells, which a picture shows and one cell says */}
      <div
        class="matrix-grid"
        role="grid"
        aria-label={words}
        aria-rowcount={rows.length}
        aria-colcount={fibres.length}
        aria-activedescendant={cellId}
        tabIndex={0}
        onFocus={() => setAt((now) => now ?? [0, 0])}
        onBlur={() => setAt(undefined)}
        onKeyDown={key}
        onClick={click}
      >
        {/* biome-ignore lint/a11y: focus stays with the grid */}
        <span role="row" aria-rowindex={(at?.[0] ?? 0) + 1} class="unseen">
          {/* biome-ignore lint/a11y: focus stays with the grid */}
          <span role="gridcell" id={cellId} aria-colindex={(at?.[1] ?? 0) + 1}>
            {chosen ?? spokenCell(matrix, [0, 0])}
          </span>
        </span>
        {picture}
      </div>
    </div>
  );
}

/** Offsets of the rows: a little room before another wavelength. */
function topsOf({ rows }: CoverageMatrix): readonly number[] {
  let top = 0;
  return rows.map(({ wavelength }, index) => {
    if (index > 0) top += side + (rows[index - 1]?.wavelength === wavelength ? 0 : between);
    return top;
  });
}

interface BandProps {
  readonly matrix: CoverageMatrix;
  readonly from: number;
  readonly per: number;
  readonly top: number;
  readonly tops: readonly number[];
}

/** Numbers over a row of cells, wavelengths and directions beside it. */
function Band({ matrix: { fibres, rows }, from, per, top, tops }: BandProps) {
  const here = fibres.slice(from, from + per);
  const last = here.length - 1;
  const numbered = here.flatMap(({ fibre }, index) =>
    index === 0 || index === last || ((from + index + 1) % 6 === 0 && last - index > 1 && index > 1)
      ? [{ fibre, x: labels + index * side + side / 2 }]
      : [],
  );
  return (
    <g>
      {numbered.map(({ fibre, x }) => (
        <text key={fibre} class="quiet" x={x} y={top + 11} text-anchor="middle">
          {fibre}
        </text>
      ))}
      {rows.map(({ wavelength, direction }, index) => {
        const alike = rows.filter((row) => row.wavelength === wavelength).length;
        const first = rows[index - 1]?.wavelength !== wavelength;
        const y = top + headHeight + (tops[index] ?? 0);
        return (
          <g key={`${wavelength} ${direction}`}>
            {first ? (
              <text class="quiet" x="28" y={y + (alike * side) / 2 + 4} text-anchor="end">
                {wavelength.replace(' nm', '')}
              </text>
            ) : null}
            <text class="quiet" x={labels - 6} y={y + 11} text-anchor="end">
              {direction}
            </text>
          </g>
        );
      })}
    </g>
  );
}

function Cursor({ at: [x, y] }: { readonly at: readonly [number, number] }) {
  return (
    <rect
      class="cell-cursor"
      x={x - side / 2 + 0.5}
      y={y - side / 2 + 0.5}
      width={side - 1}
      height={side - 1}
    />
  );
}

/** One path a verdict, however many cells there are. */
function marksOf(
  { rows }: CoverageMatrix,
  place: (row: number, fibre: number) => readonly [number, number],
): ReadonlyMap<Verdict, string> {
  const marks = new Map<Verdict, string>();
  for (const [row, { cells }] of rows.entries()) {
    for (const [fibre, verdict] of cells.entries()) {
      if (!verdict) continue;
      marks.set(verdict, (marks.get(verdict) ?? '') + formOf(verdict, ...place(row, fibre)));
    }
  }
  return marks;
}

/** Round the middle of its cell. */
const forms: Readonly<Record<Verdict, string>> = {
  fail: 'm-6 0h12m-6 -4v8',
  'marginal-fail': 'm-4.5 0l4.5 -4.5l4.5 4.5l-4.5 4.5z',
  'marginal-pass': 'm-4 0l4 -4l4 4l-4 4z',
  invalid: 'm-6 2l3 -4l3 4l3 -4l3 4',
  stale: 'm-2 4l4 -8',
  untested: 'm-4.5 -4.5h9v9h-9z',
  'not-judged': 'm-4.5 0h9',
  conceded: 'm-5 3a5 5 0 0 1 10 0',
  pass: 'm-3 0h6',
};

function formOf(verdict: Verdict, x: number, y: number): string {
  return `M${x} ${y}${forms[verdict]}`;
}

function stepped(
  [row, fibre]: readonly [number, number],
  key: string,
  rows: number,
  fibres: number,
): readonly [number, number] | undefined {
  switch (key) {
    case 'ArrowRight':
      return [row, Math.min(fibres - 1, fibre + 1)];
    case 'ArrowLeft':
      return [row, Math.max(0, fibre - 1)];
    case 'ArrowDown':
      return [Math.min(rows - 1, row + 1), fibre];
    case 'ArrowUp':
      return [Math.max(0, row - 1), fibre];
    case 'Home':
      return [row, 0];
    case 'End':
      return [row, fibres - 1];
    default:
      return undefined;
  }
}

function spokenCell(
  { rows, fibres }: CoverageMatrix,
  [row, fibre]: readonly [number, number],
): string {
  const one = rows[row];
  const verdict = one?.cells[fibre];
  const what = [one?.wavelength, one?.direction.replace('>', ' to ')].filter(Boolean).join(' ');
  return [fibres[fibre]?.label, what, verdict ? lookOf(verdict).word : 'not asked for'].join(', ');
}

/** What the forms mean, of those that are there. */
function CellKey({ seen }: { readonly seen: ReadonlySet<Verdict | null> }) {
  const verdicts = [...seen].filter((each) => each !== null).sort((a, b) => rankOf(a) - rankOf(b));
  return (
    <p class="key-line small quiet">
      {verdicts.map((verdict) => (
        <span key={verdict} class="key-entry">
          <svg class="matrix" width="14" height="14" aria-hidden="true">
            <path
              class={`cell cell-${verdict} tone-${lookOf(verdict).tone}`}
              d={formOf(verdict, 7, 7)}
            />
          </svg>
          {lookOf(verdict).word}
        </span>
      ))}
    </p>
  );
}

interface LinesProps {
  readonly lines: readonly CoverageLine[];
  readonly open: CoverageProps['openCable'];
}

function Lines({ lines, open }: LinesProps) {
  const longest = Math.max(1, ...lines.map(({ expected, present }) => Math.max(expected, present)));
  return (
    <ul class="coverage-lines">
      {lines.map((line) => {
        const { cable, links, present, expected, todo, complete } = line;
        const share = (of: number) => `${(Math.min(of, longest) / longest) * 100}%`;
        const named = cable ? <span class="mono">{cable}</span> : 'in no cable';
        return (
          <li key={cable} class="coverage-line">
            {open ? (
              <button type="button" class="goto" onClick={() => open(cable)}>
                {named}
              </button>
            ) : (
              <span>{named}</span>
            )}
            <span class="small quiet">{counted(links, 'link')}</span>
            <svg class="coverage-bar" width="100%" height="10" aria-hidden="true">
              <rect class="bar-all" x="0.5" y="0.5" width={share(expected)} height="9" />
              <rect
                class="bar-made"
                x="0"
                y="0"
                width={share(Math.min(present, expected))}
                height="10"
              />
            </svg>
            <span class="number">
              {count(present)}
              <span class="quiet">/{count(expected)}</span>
            </span>
            <span class={complete ? 'quiet' : ''}>{todo}</span>
          </li>
        );
      })}
    </ul>
  );
}
