/** What of a long table is in sight: rows seen and some either side, and where they stand on a page that may be shorter than they are. */
import type { RefObject } from 'preact';
import { useCallback, useEffect, useLayoutEffect, useState } from 'preact/hooks';
import type { Heights } from './heights.ts';

/** Rows either side of what is seen. */
const beyond = 20;
/** The head that sticks above the rows, px. */
const stickyHead = 28;

export interface Sight {
  readonly from: number;
  readonly to: number;
  /** Added to a row's height among the rows to get its place in the scrolled element. */
  readonly shift: number;
  /** First row that is seen under the head. */
  readonly first: number;
}

export function useSight(body: RefObject<HTMLElement | null>, heights: Heights, rows: number) {
  const [sight, setSight] = useState<Sight>({ from: 0, to: 60, shift: 0, first: 0 });

  const measure = useCallback(() => {
    const top = body.current?.getBoundingClientRect().top ?? 0;
    const seen = window.innerHeight;
    const scrolled = Math.max(0, stickyHead - top);
    const y = heights.rowsAt(scrolled, seen);
    const first = heights.rowAt(y);
    const last = heights.rowAt(y + Math.max(0, seen - Math.max(top, 0)));
    const next: Sight = {
      from: Math.max(0, first - beyond),
      to: Math.min(rows, last + 1 + beyond),
      shift: heights.scrolled === heights.total ? 0 : scrolled - y,
      first,
    };
    setSight((now) =>
      now.from === next.from &&
      now.to === next.to &&
      now.shift === next.shift &&
      now.first === next.first
        ? now
        : next,
    );
  }, [body, heights, rows]);

  useLayoutEffect(measure, [measure]);
  useEffect(() => {
    window.addEventListener('scroll', measure, { passive: true });
    window.addEventListener('resize', measure);
    return () => {
      window.removeEventListener('scroll', measure);
      window.removeEventListener('resize', measure);
    };
  }, [measure]);

  /** Brings a row into sight, no further than needed. */
  const bring = useCallback(
    (index: number) => {
      const top = (body.current?.getBoundingClientRect().top ?? 0) + window.scrollY;
      const seen = window.innerHeight;
      const y = top + heights.scrolledAt(heights.topOf(index), seen);
      const height = heights.heightAt(index);
      const above = stickyHead + 44;
      if (y < window.scrollY + above) window.scrollTo({ top: y - above });
      else if (y + height > window.scrollY + seen) {
        window.scrollTo({ top: y + height - seen + 24 });
      }
    },
    [body, heights],
  );

  return { sight, bring };
}
