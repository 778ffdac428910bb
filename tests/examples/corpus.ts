/** Every text of the notation that people read: examples, library, and the fences of the reference. */
import { globSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';

export interface CorpusText {
  readonly name: string;
  readonly text: string;
}

const root = join(import.meta.dirname, '../..');

const files = (pattern: string): CorpusText[] =>
  globSync(pattern, { cwd: root })
    .sort()
    .map((path) => ({
      name: relative(root, join(root, path)),
      text: readFileSync(join(root, path), 'utf8'),
    }));

/** Sound examples: those with mistakes on purpose are not among them. */
export const examples: readonly CorpusText[] = files('examples/**/*.lwl').filter(
  ({ name }) => !name.startsWith('examples/mistakes'),
);

export const library: readonly CorpusText[] = files('grammar/library/*.lwl');

/** Plans in the pages of the reference. */
export const fences: readonly CorpusText[] = files('grammar/{*,words/*}.md').flatMap(
  ({ name, text }) =>
    [...text.matchAll(/```lwl\n([\s\S]*?)```/gu)].map((match, index) => ({
      name: `${name} ${index + 1}`,
      text: match[1] ?? '',
    })),
);
