/** Lines of a block's text, and places in them as an editor counts. */
import type { Position } from './types.ts';

/** Offset at which line number `line` of a text starts; the last line's where it has fewer. */
export function startOfLine(text: string, line: number): number {
  let start = 0;
  for (let count = 0; count < line; count++) {
    const next = nextLineStart(text, start);
    if (next < 0) return start;
    start = next;
  }
  return start;
}

function nextLineStart(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10) return at + 1;
    if (code === 13) return text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
  }
  return -1;
}

export function endOfLine(text: string, start: number): number {
  for (let at = start; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) return at;
  }
  return text.length;
}

/** Position of an offset in a block that begins on `firstLine`, looking from a line start before it. */
export function positionIn(
  text: string,
  offset: number,
  firstLine: number,
  linesBefore: number,
  lineStart: number,
): Position {
  const clamped = Math.min(offset, text.length);
  let start = lineStart;
  let line = linesBefore;
  for (
    let next = nextLineStart(text, start);
    next >= 0 && next <= clamped;
    next = nextLineStart(text, start)
  ) {
    start = next;
    line += 1;
  }
  return { line: firstLine - linesBefore + line, character: clamped - start };
}
