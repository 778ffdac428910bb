/** Example lines of the vocabulary, laid out as the formatter would. */
import type { WordEntry } from '../vocabulary/index.ts';

/** Arguments stand this far behind the beginning of a word inside a block. */
const argumentsAt = 12;

/** The example as it stands inside a block; the line that opens a block has single blanks. */
export function exampleLine(entry: WordEntry): string {
  if (entry.contexts[0] === 'file' || entry.example.endsWith('{')) return entry.example;
  const [word = '', ...rest] = entry.example.split(' ');
  return `${word.padEnd(argumentsAt)}${rest.join(' ')}`.trimEnd();
}
