/**
 * Merge conflicts: seven of one sign at the margin, alone or before a name.
 * Only the first side is read. Its sides may hold many declarations, each a
 * block of its own, so that a document says where a block stands in one.
 */
import { Class, classAt, nextLine } from './characters.ts';

/** Where a line stands: in no conflict, in the side that is read, in one that is not. */
export type Side = 'none' | 'first' | 'other';

/** `<` opens a conflict, `|` and `=` part its sides, `>` closes it. */
export type Marker = '<' | '|' | '=' | '>';

/** The sign of a merge marker that is the line, or undefined. */
export function markerAt(text: string, start: number, end: number): Marker | undefined {
  const sign = text[start];
  if (sign === undefined || end - start < 7 || !'<=>|'.includes(sign)) return undefined;
  for (let at = start + 1; at < start + 7; at++) if (text[at] !== sign) return undefined;
  const alone = start + 7 === end || classAt(text, start + 7) === Class.blank;
  return alone ? (sign as Marker) : undefined;
}

/** The side behind a marker. */
export function sideAfter(marker: Marker): Side {
  if (marker === '<') return 'first';
  return marker === '>' ? 'none' : 'other';
}

/** The markers of a text, in their order; nearly every text has none. */
export function markersIn(text: string): readonly Marker[] {
  if (!signs.some((sign) => text.includes(sign))) return none;
  const found: Marker[] = [];
  for (let start = 0; start >= 0; ) {
    const next = nextLine(text, start);
    const marker = markerAt(text, start, next < 0 ? text.length : lineEndBefore(text, next));
    if (marker) found.push(marker);
    start = next;
  }
  return found;
}

const signs = ['<<<<<<<', '|||||||', '=======', '>>>>>>>'] as const;
const none: readonly Marker[] = [];

/** End of the line whose line end stops before `next`. */
export function lineEndBefore(text: string, next: number): number {
  const before = next - 1;
  return text.charCodeAt(before) === 10 && text.charCodeAt(before - 1) === 13 ? before - 1 : before;
}
