/** The margin strip for paper: readings by limit less loss, the limit a line that stands at the same place in every row. */
import { limitAt, placeOf } from '../scale.ts';
import type { Lane, ScaleView, Stroke } from '../view.ts';
import { escaped } from './escaped.ts';

const laneHeight = 13;
const headHeight = 10;

export interface Svg {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** One lane for each wavelength; strokes up for A>B, down for B>A; what is not pass is thicker, dashed or hollow. */
export function stripSvg(lanes: readonly Lane[], reach: number, width: number): Svg {
  const height = Math.max(1, lanes.length) * laneHeight;
  const limit = limitAt * width;
  const drawn = lanes.map((lane, index) => laneSvg(lane, reach, width, (index + 0.5) * laneHeight));
  return {
    width,
    height,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif"><rect x="${round(limit)}" y="0" width="${round(width - limit)}" height="${height}" fill="#f2f2f2"/>${drawn.join('')}${line(`M${round(limit)} 0V${height}`, 1.3)}</svg>`,
  };
}

/** Signed figures over the grid, and the word limit over its line. */
export function stripHeadSvg(scale: ScaleView, width: number): Svg {
  const texts = scale.ticks
    .filter((_, index) => index % 2 === 0 || width > 200)
    .concat(
      scale.ticks.filter(
        ({ label }, index) => label === 'limit' && index % 2 === 1 && width <= 200,
      ),
    )
    .map(
      ({ at, label }) =>
        `<text x="${round(at * width)}" y="8" font-size="6.5" text-anchor="${at < 0.05 ? 'start' : at > 0.95 ? 'end' : 'middle'}" fill="#000000">${escaped(label)}</text>`,
    );
  return {
    width,
    height: headHeight,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${headHeight}" viewBox="0 0 ${width} ${headHeight}" font-family="sans-serif">${texts.join('')}</svg>`,
  };
}

function laneSvg(lane: Lane, reach: number, width: number, middle: number): string {
  const at = (margin: number) => round(Math.min(1, Math.max(0, placeOf(margin, reach))) * width);
  const stroke = (margin: number, side: Stroke['side']) =>
    `M${at(margin)} ${side === 'down' ? middle : middle - 5}V${side === 'up' ? middle : middle + 5}`;
  const plain = (['up', 'down', 'both'] as const).flatMap((side) =>
    lane.plain[side].map((margin) => stroke(margin, side)),
  );
  const parts = [
    lane.expected === undefined
      ? ''
      : line(`M${at(lane.expected)} ${middle - 6}V${middle + 6}`, 0.7, '2 1.5', '#777777'),
    lane.density ? densitySvg(lane.density, width, middle) : '',
    plain.length > 0 ? line(plain.join(''), 0.8) : '',
    ...lane.marked.map(({ margin, side, verdict }) =>
      verdict === 'conceded'
        ? `<rect x="${at(margin) - 1.5}" y="${side === 'down' ? middle : middle - 5}" width="3" height="${side === 'both' ? 10 : 5}" fill="#ffffff" stroke="#000000" stroke-width="0.9"/>`
        : line(
            stroke(margin, side),
            verdict === 'invalid' || verdict === 'stale' ? 1.2 : 2.4,
            verdict === 'invalid' || verdict === 'stale' ? '1.5 1' : undefined,
          ),
    ),
    lane.dark
      ? `<text x="${width}" y="${middle + 2.5}" font-size="6.5" text-anchor="end" fill="#000000">dark</text>`
      : '',
  ];
  return parts.join('');
}

function densitySvg(
  { up, down }: NonNullable<Lane['density']>,
  width: number,
  middle: number,
): string {
  const most = Math.max(1, ...up, ...down);
  const each = width / up.length;
  const side = (counts: readonly number[], way: 1 | -1) =>
    counts
      .map(
        (count, bin) => `L${round((bin + 0.5) * each)} ${round(middle + (way * 5 * count) / most)}`,
      )
      .join('');
  return `<path d="M0 ${middle}${side(up, -1)}L${width} ${middle}ZM0 ${middle}${side(down, 1)}L${width} ${middle}Z" fill="#777777"/>`;
}

function line(d: string, width: number, dash?: string, colour = '#000000'): string {
  return `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
