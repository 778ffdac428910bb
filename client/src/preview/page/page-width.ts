/** How much room a page has, and which layout that makes. */
import { useEffect, useLayoutEffect, useState } from 'preact/hooks';
import { type Layout, layoutFor } from '../../../../server/src/report/page/layout.ts';

/** No drawing is narrower, px. */
const leastWidth = 280;

/** Layout and width of the page's inside, px; a zoomed page is a narrower one, and so is one that scrolls. */
export function usePageWidth(): { readonly layout: Layout; readonly width: number } {
  const measure = () => {
    const inside = document.getElementById('page')?.clientWidth ?? 0;
    return { layout: layoutFor(window.innerWidth), width: Math.max(leastWidth, inside) };
  };
  const [now, setNow] = useState(measure);
  useEffect(() => {
    const page = document.getElementById('page');
    if (!page) return;
    const resized = new ResizeObserver(() =>
      setNow((before) => {
        const next = measure();
        return next.layout === before.layout && next.width === before.width ? before : next;
      }),
    );
    resized.observe(page);
    return () => resized.disconnect();
  }, []);
  useLayoutEffect(() => {
    for (const each of ['wide', 'middle', 'narrow']) {
      document.body.classList.toggle(each, each === now.layout);
    }
  }, [now.layout]);
  return now;
}
