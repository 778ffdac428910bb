/**
 * Where the blocks of a text begin. A line at the margin that opens a brace
 * begins a declaration, and nothing reaches over such a line; so a block
 * boundary follows from its own line alone, whatever stands around it.
 *
 * A block goes from one such line to the next. What stands after the closing
 * brace (empty lines, comments, `include` lines) ends that block; what stands
 * before the first declaration is a block of its own.
 */
import {
  byteOrderMark,
  Class,
  classAt,
  endOfRun,
  isRun,
  readQuoted,
  widthAt,
} from './characters.ts';
import { W } from './vocabulary/spelling.ts';

/** Words that open a block inside a declaration only, so never begin one at the margin. */
export const innerWords: ReadonlySet<string> = new Set([
  W.split,
  W.out,
  W.repair,
  W.doubts,
  W.changes,
]);

/** Offsets in `text` of the lines that begin a declaration, ascending. */
export function margins(text: string): number[] {
  const found: number[] = [];
  // Only a line that holds a brace can be one, so look from brace to brace.
  let at = text.indexOf('{');
  while (at >= 0) {
    const start = lineStart(text, at);
    const end = lineEnd(text, at);
    if (isMargin(text, start, end)) found.push(start);
    at = text.indexOf('{', end);
  }
  return found;
}

/** True if the line from `start` to `end` (without its line end) begins a declaration. */
function isMargin(text: string, start: number, end: number): boolean {
  let at = text.charCodeAt(start) === byteOrderMark ? start + 1 : start;
  if (at >= end || !isRun(classAt(text, at))) return false;
  const word = at;
  at = endOfRun(text, at, end);
  return !innerWords.has(text.slice(word, at)) && holdsOpen(text, at, end);
}

/** True if a `{` stands in the rest of a line, outside text and comment. */
function holdsOpen(text: string, from: number, end: number): boolean {
  let at = from;
  let before: number = Class.letter;
  while (at < end) {
    const kind = classAt(text, at);
    if (kind === Class.open) return true;
    if (kind === Class.hash && !(isRun(before) && at + 1 < end && isRun(classAt(text, at + 1)))) {
      return false;
    }
    if (kind === Class.quote && !isGlued(text, at, end, before)) {
      at = readQuoted(text, at, end).end;
    } else {
      at += widthAt(text, at);
    }
    before = kind;
  }
  return false;
}

/** True for an apostrophe inside a run, which opens no text. */
function isGlued(text: string, at: number, end: number, before: number): boolean {
  if (text.charCodeAt(at) === 34 || !isRun(before)) return false;
  return at + 1 < end && isRun(classAt(text, at + 1));
}

function lineStart(text: string, from: number): number {
  let at = from;
  while (at > 0) {
    const code = text.charCodeAt(at - 1);
    if (code === 10 || code === 13) break;
    at--;
  }
  return at;
}

function lineEnd(text: string, from: number): number {
  let at = from;
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) break;
    at++;
  }
  return at;
}

/** Parts a text at its margins; the parts joined are the text. Never empty. */
export function splitBlocks(text: string): string[] {
  const starts = margins(text);
  if (starts[0] !== 0) starts.unshift(0);
  return starts.map((start, index) => text.slice(start, starts[index + 1] ?? text.length));
}
