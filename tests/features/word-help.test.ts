/** A hover says of a word what its page says. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { vocabulary } from '../../grammar/src/vocabulary/index.ts';
import { wordAsMarkdown } from '../../server/src/features/word-help.ts';

const pages = join(import.meta.dirname, '../../grammar/words');
const rows = vocabulary.map((entry) => [`${entry.word} in ${entry.contexts[0]}`, entry] as const);

/** Pages lay an example out and set signatures in; blanks and fences are theirs. */
const squeezed = (text: string): string => text.replaceAll(/[ \t]+/gu, ' ').trim();

test.each(rows)('%s is helped with what stands on its page', (_, entry) => {
  const page = squeezed(readFileSync(join(pages, `${entry.contexts[0]}.md`), 'utf8'));
  const lines = wordAsMarkdown(entry)
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('```'));
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) expect(page).toContain(squeezed(line));
});
