/**
 * Expectations written into a text, under the line they are about:
 *
 *     link A {
 *       length      0,5 km
 *                   ^^^ decimal-comma: Write 0.5
 *     }
 *
 * The carets stand under the range; behind them the name of the finding and,
 * after a colon, a part of its message. `^^…` says that the range goes on in
 * lines below. A line may have several; a text without any expects nothing.
 */
import { expect } from 'vitest';

export interface Expectation {
  /** Zero-based line of the text without its marker lines. */
  readonly line: number;
  /** UTF-16 columns, the end exclusive; no end where the range goes on below. */
  readonly start: number;
  readonly end: number | undefined;
  readonly name: string;
  readonly message: string;
}

export interface MarkedText {
  readonly text: string;
  readonly expected: readonly Expectation[];
}

/** What a finding is to these tests. */
export interface Found {
  readonly name: string;
  readonly message: string;
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
}

const marker = /^( *)(\^+)(…?) +([a-z0-9/-]+)(?:: *(.*))?$/u;

/** Parts a text from its markers. */
export function readMarkers(source: string): MarkedText {
  const lines: string[] = [];
  const expected: Expectation[] = [];
  for (const line of source.split('\n')) {
    const match = marker.exec(line);
    if (!match) {
      lines.push(line);
      continue;
    }
    const [, blanks = '', carets = '', goesOn, name = '', message = ''] = match;
    const start = blanks.length;
    const end = goesOn ? undefined : start + carets.length;
    expected.push({ line: lines.length - 1, start, end, name, message });
  }
  return { text: lines.join('\n'), expected };
}

/** The text with its findings as marker lines: what a fixture would say of it. */
function writeMarkers(text: string, found: readonly Found[]): string {
  const lines = text.split('\n');
  return lines
    .flatMap((line, index) => [
      line,
      ...found.filter(({ range }) => range.start.line === index).map(toMarker),
    ])
    .join('\n');
}

function toMarker({ range, name, message }: Found): string {
  const { start, end } = range;
  const goesOn = end.line > start.line;
  const width = goesOn ? 1 : Math.max(1, end.character - start.character);
  return `${' '.repeat(start.character)}${'^'.repeat(width)}${goesOn ? '…' : ''} ${name}: ${message}`;
}

/** Fails unless the findings are those expected: names and places exactly, messages in part. */
export function expectFindings(marked: MarkedText, found: readonly Found[]): void {
  const sorted = found.toSorted(
    (a, b) =>
      a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
  );
  const shown = sorted.map((finding, index) => {
    const part = marked.expected[index]?.message ?? '';
    return finding.message.includes(part) ? { ...finding, message: part } : finding;
  });
  const wanted = marked.expected.map((expectation) => toFound(expectation, sorted));
  expect(writeMarkers(marked.text, shown)).toBe(writeMarkers(marked.text, wanted));
}

function toFound({ line, start, end, name, message }: Expectation, found: readonly Found[]): Found {
  const below = found.find(({ range }) => range.start.line === line)?.range.end;
  const lastBelow = below && below.line > line ? below : { line: line + 1, character: 0 };
  const range = {
    start: { line, character: start },
    end: end === undefined ? lastBelow : { line, character: end },
  };
  return { name, message, range };
}
