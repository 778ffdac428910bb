/**
 * Equality of content without regard to where it stands, and moving the spans
 * of content that only moved. Everything bound is plain data: values, lists and
 * spans; units and other shared constants are equal when they are identical.
 */

/** Equal but for spans. */
export function sameContent(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (isSpan(a) && isSpan(b)) return true;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    return a.every((item, index) => sameContent(item, b[index]));
  }
  if (a instanceof Map && b instanceof Map) return sameContent([...a], [...b]);
  const before = Object.entries(a);
  const after = b as Record<string, unknown>;
  if (before.length !== Object.keys(after).length) return false;
  return before.every(([key, value]) => key in after && sameContent(value, after[key]));
}

/**
 * Gives the spans of `kept` the positions of those in `now`, which has the same
 * content. Spans are shared by the places made from them, so that these move along.
 */
export function moveSpans(kept: unknown, now: unknown): void {
  if (kept === now || typeof kept !== 'object' || typeof now !== 'object' || !kept || !now) return;
  if (isSpan(kept) && isSpan(now)) {
    kept.start = now.start;
    kept.end = now.end;
    return;
  }
  if (Array.isArray(kept)) {
    for (const [index, item] of kept.entries()) moveSpans(item, (now as unknown[])[index]);
    return;
  }
  if (kept instanceof Map) {
    moveSpans([...kept], [...(now as Map<unknown, unknown>)]);
    return;
  }
  for (const [key, value] of Object.entries(kept)) {
    moveSpans(value, (now as Record<string, unknown>)[key]);
  }
}

function isSpan(value: object): value is { start: number; end: number } {
  return 'start' in value && 'end' in value && typeof value.start === 'number';
}
