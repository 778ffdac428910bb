/** The picture of the study: one small chart a mistake, share told against size, drawn as text. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Measured } from './study-results.ts';

const chart = { width: 300, height: 190, left: 42, right: 14, top: 38, bottom: 44 };
const across = 3;
const ink = {
  text: '#24292f',
  faint: '#57606a',
  rule: '#d0d7de',
  curve: '#0550ae',
  from: '#9a3412',
};

export function pictureOf(measured: readonly Measured[]): string {
  const sized = measured.filter(({ mistake }) => mistake.size !== undefined);
  const rows = Math.ceil(sized.length / across);
  const [width, height] = [across * chart.width, rows * chart.height];
  const charts = sized.map((one, index) => {
    const x = (index % across) * chart.width;
    const y = Math.floor(index / across) * chart.height;
    return `<g transform="translate(${x} ${y})">\n${chartOf(one)}\n</g>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="system-ui, sans-serif" font-size="11" fill="${ink.text}">
<title>Share of mistakes that are told, against their size</title>
<desc>One chart for each mistake that has a size. The dashed upright line is the size from which it is told in at least 95 of 100 plans; the figures stand in the table beside this picture.</desc>
<rect width="${width}" height="${height}" fill="#ffffff"/>
${charts.join('\n')}
</svg>
`;
}

function chartOf({ mistake, curve }: Measured): string {
  const last = mistake.sizes.at(-1) ?? 1;
  const x = scaleLinear([0, last], [chart.left, chart.width - chart.right]);
  const y = scaleLinear([0, 100], [chart.height - chart.bottom, chart.top]);
  const points = curve.map(({ size, told, of }) => [x(size), y((told / of) * 100)] as const);
  const path = line<readonly [number, number]>(
    ([at]) => round(at),
    ([, at]) => round(at),
  )(points);
  const levels = [0, 50, 95].map(
    (percent) =>
      `<line x1="${chart.left}" x2="${chart.width - chart.right}" y1="${round(y(percent))}" y2="${round(y(percent))}" stroke="${ink.rule}"/>` +
      `<text x="${chart.left - 6}" y="${round(y(percent) + 4)}" text-anchor="end" fill="${ink.faint}">${percent} %</text>`,
  );
  const bottom = chart.height - chart.bottom;
  const ticks = x
    .ticks(5)
    .map(
      (tick) =>
        `<text x="${round(x(tick))}" y="${bottom + 15}" text-anchor="middle" fill="${ink.faint}">${tick}</text>`,
    );
  const from = round(x(mistake.from));
  return [
    `<text x="8" y="18" font-weight="600">${mistake.name}</text>`,
    ...levels,
    ...ticks,
    `<text x="${chart.left}" y="${bottom + 31}" fill="${ink.faint}">${mistake.size?.what}, ${mistake.size?.unit}</text>`,
    `<line x1="${from}" x2="${from}" y1="${chart.top}" y2="${bottom}" stroke="${ink.from}" stroke-dasharray="4 3"/>`,
    `<path d="${path}" fill="none" stroke="${ink.curve}" stroke-width="2"/>`,
    ...points.map(
      ([at, high]) => `<circle cx="${round(at)}" cy="${round(high)}" r="3" fill="${ink.curve}"/>`,
    ),
  ].join('\n');
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
