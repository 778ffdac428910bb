/**
 * Texts with their findings marked in them: carets under the place, and behind
 * them the name and the message. `marked(text)` reads such a text without its
 * marks and gives it back with the marks that binding makes, so that a test
 * compares the two and shows the difference where it is.
 */
import { bindBlock } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import type { BoundEntry } from '../../grammar/src/bound.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import type { NotationFinding } from '../../grammar/src/tree.ts';

const isMark = (line: string): boolean => /^\s*\^+ /u.test(line);

/** The text without its marks. */
export const unmarked = (text: string): string =>
  text
    .split('\n')
    .filter((line) => !isMark(line))
    .join('\n');

/** The text with a line of carets under each place of a finding. */
export function marked(text: string): string {
  return splitBlocks(unmarked(text))
    .map((block) => mark(block, bindBlock(parseBlock(block), block).findings))
    .join('');
}

function mark(block: string, findings: readonly NotationFinding[]): string {
  const lines: string[] = [];
  let start = 0;
  for (const line of block.split('\n')) {
    lines.push(line);
    const end = start + line.length;
    for (const { span, name, message } of findings) {
      if (span.start < start || span.start > end) continue;
      const width = Math.max(1, Math.min(span.end, end) - span.start);
      lines.push(`${' '.repeat(span.start - start)}${'^'.repeat(width)} ${name}: ${message}`);
    }
    start = end + 1;
  }
  return lines.join('\n');
}

/** Everything that the notation says about a text of several blocks. */
export function findingsOf(text: string): NotationFinding[] {
  return splitBlocks(text).flatMap((block) => [...bindBlock(parseBlock(block), block).findings]);
}

/** The text after every fix of it has been made. */
export function fixed(text: string): string {
  return splitBlocks(text)
    .map((block) => {
      const edits = bindBlock(parseBlock(block), block)
        .findings.flatMap((finding) => finding.fix?.edits ?? [])
        .sort((a, b) => b.span.start - a.span.start);
      return edits.reduce(
        (whole, edit) => whole.slice(0, edit.span.start) + edit.text + whole.slice(edit.span.end),
        block,
      );
    })
    .join('');
}

/** The entries of a text, bound. */
export function bound(text: string): BoundEntry[] {
  return splitBlocks(text).flatMap((block) => [...bindBlock(parseBlock(block), block).entries]);
}
