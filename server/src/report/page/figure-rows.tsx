/** Figures below a path, each under its element: most allowed, expected, and what traces saw. */
import type { Drawing } from '../drawing.ts';
import { lookOf } from '../verdicts.ts';
import { acrossAt, type Placed, placeFigures } from './placing.ts';
import { textWidth } from './text-width.ts';

export const figureRow = 17;

interface Cell {
  readonly text: string;
  readonly tone: string;
}

export interface FigureRow {
  readonly label: string;
  readonly cells: readonly Cell[];
}

const none: Cell = { text: '', tone: 'quiet' };

/** Rows that have a figure at all. */
export function rowsOf({ elements, allowed, traced }: Drawing): readonly FigureRow[] {
  const rows: FigureRow[] = [
    {
      label: allowed?.kind === undefined ? 'greatest, dB' : 'limit, dB',
      cells: elements.map(({ counted, allowed: own }) =>
        own ? { text: own.text, tone: counted ? '' : 'quiet' } : none,
      ),
    },
    {
      label: 'expected, dB',
      cells: elements.map(({ counted, expected }) => ({
        text: counted ? (expected?.text ?? '') : 'not in it',
        tone: 'quiet',
      })),
    },
    {
      label: 'traced, dB',
      cells: elements.map((_, index) => {
        const seen = traced.find(({ element }) => element === index);
        return seen ? { text: seen.figure, tone: toneOf(seen.verdict) } : none;
      }),
    },
  ];
  return rows.filter(
    ({ cells, label }) =>
      cells.some(({ text }) => text && text !== 'not in it') ||
      (label.startsWith('traced') && traced.length > 0),
  );
}

function toneOf(verdict: Parameters<typeof lookOf>[0]): string {
  const { tone } = lookOf(verdict);
  return tone === 'ink' ? '' : `text-${tone}`;
}

interface FigureRowsProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly rows: readonly FigureRow[];
  readonly y: number;
}

export function FigureRows({ drawing, placed, rows, y }: FigureRowsProps) {
  const shown = placeFigures(placed, (index) => rows.map(({ cells }) => cells[index]?.text ?? ''));
  return (
    <>
      {rows.map(({ label, cells }, row) => (
        <g key={label}>
          <text class="quiet" x="0" y={y + row * figureRow}>
            {label}
          </text>
          {cells.map(({ text, tone }, index) =>
            text && shown.has(index) ? (
              <text
                key={index}
                class={tone}
                x={placed[index]?.x}
                y={y + row * figureRow}
                text-anchor="middle"
              >
                {text}
              </text>
            ) : null,
          )}
        </g>
      ))}
      <Loose
        drawing={drawing}
        placed={placed}
        taken={[...shown].flatMap((index) => {
          const text = rows.at(-1)?.cells[index]?.text;
          return text ? [{ x: placed[index]?.x ?? 0, half: textWidth(text) / 2 }] : [];
        })}
        y={y + (rows.length - 1) * figureRow}
      />
    </>
  );
}

interface LooseProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly taken: readonly { readonly x: number; readonly half: number }[];
  readonly y: number;
}

/** What was traced where the path has no joint: a repair of some fibres, a bend. */
function Loose({ drawing, placed, taken, y }: LooseProps) {
  const full = [...taken];
  return (
    <>
      {drawing.traced.map(({ element, at, figure, verdict }, index) => {
        if (element !== undefined) return null;
        const x = acrossAt(placed, at);
        const half = textWidth(figure) / 2;
        if (full.some((other) => Math.abs(other.x - x) < other.half + half + 4)) return null;
        full.push({ x, half });
        return (
          <text key={index} class={toneOf(verdict)} x={x} y={y} text-anchor="middle">
            {figure}
          </text>
        );
      })}
    </>
  );
}
