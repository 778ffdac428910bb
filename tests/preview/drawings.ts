/** Every drawing of an example as a page of its own, as wide as the editor's page would draw it. */
import { readFileSync } from 'node:fs';
import { h } from 'preact';
import renderToString from 'preact-render-to-string';
import { drawingOf } from '../../server/src/report/drawing.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { DrawingView } from '../../server/src/report/page/drawing.tsx';
import { layoutFor } from '../../server/src/report/page/layout.ts';
import { openExample } from '../examples/open.ts';

/** The sheets as the page has them. */
const sheets = ['colours', 'page', 'table', 'drawing']
  .map((name) => readFileSync(`server/src/report/page/${name}.css`, 'utf8'))
  .join('\n');

/** Edges of the page at both sides, px. */
const edges = { wide: 32, middle: 32, narrow: 24 } as const;

/** A document with each object of the example's plans, at each of its wavelengths. */
export function drawingsOf(example: string, pageWidth: number): string {
  const layout = layoutFor(pageWidth);
  const views = openExample(example).plans.flatMap((plan) => {
    const subject = { plan, display: plainDisplay };
    return plan.result.order.flatMap((name) => {
      const first = drawingOf(subject, name, undefined);
      const waves = first?.wavelengths.map(({ nanometres }) => nanometres) ?? [];
      return (waves.length > 0 ? waves : [undefined]).flatMap((nanometres) => {
        const drawing = drawingOf(subject, name, nanometres);
        return drawing ? [drawing] : [];
      });
    });
  });
  const sections = views.map((drawing) =>
    renderToString(
      h(DrawingView, { drawing, width: pageWidth - edges[layout], narrow: layout === 'narrow' }),
    ),
  );
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><style>${sheets}</style></head>
<body class="${layout}">${sections.join('\n')}</body></html>`;
}
