/** A title that is another one now: said to people. */
import type { Draft } from './draft.ts';
import type { About } from './line.ts';
import { headOf, type SaidEntry } from './side.ts';

export function* titleEdit(
  old: SaidEntry,
  now: SaidEntry,
  was: string | undefined,
  is: string | undefined,
  about: About,
): Iterable<Draft> {
  if (was === is) return;
  yield {
    kind: 'words',
    form: was === undefined ? 'new' : is === undefined ? 'gone' : 'changed',
    subject: `title of ${about.label}`,
    was: was && `"${was}"`,
    now: is && `"${is}"`,
    before: headOf(old),
    after: headOf(now),
  };
}
