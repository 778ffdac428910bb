/** Brackets above a path: what it belongs to, the channel outermost, links in rows that do not meet. */
import type { Drawing } from '../drawing.ts';
import type { Placed } from './placing.ts';
import { cutTo, textWidth } from './text-width.ts';

export const bracketRow = 22;
/** A bracket reaches this far beyond the signs at its ends, px. */
const beyond = 10;

export interface PlacedBracket {
  readonly what: Drawing['brackets'][number]['what'];
  readonly text: string;
  readonly whole: string;
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

/** The first spans all and stands alone; each other takes the first row in which it meets none. */
export function placeBrackets(
  { brackets }: Drawing,
  placed: readonly Placed[],
  room: number,
): readonly PlacedBracket[] {
  const ends: number[] = [];
  return brackets.map(({ what, name, length, first, last }, index) => {
    const from = (placed[first]?.from ?? 0) - beyond;
    const to = (placed[last]?.to ?? from) + beyond;
    const whole = [`${what} ${name}`, length].filter(Boolean).join(', ');
    const text = cutTo(whole, room - from - 4);
    const end = Math.max(to, from + 4 + textWidth(text)) + 8;
    let row = index === 0 ? 0 : 1;
    while ((ends[row] ?? Number.NEGATIVE_INFINITY) > from) row += 1;
    ends[row] = end;
    return { what, text, whole, row, from, to };
  });
}

export function Brackets({ brackets }: { readonly brackets: readonly PlacedBracket[] }) {
  return (
    <>
      {brackets.map(({ what, text, whole, row, from, to }) => {
        const y = 16 + row * bracketRow;
        return (
          <g key={whole} class={`bracket ${what}`}>
            <title>{whole}</title>
            <path d={`M${from} ${y + 5}v-5H${to}v5`} />
            <text x={from + 4} y={y - 4}>
              {text}
            </text>
          </g>
        );
      })}
    </>
  );
}
