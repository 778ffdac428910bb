/** A comparison as one file: read without a network, printed black on white, every effect that the page holds in it. */
import renderToString from 'preact-render-to-string';
import { type ChangesSubject, changesOf } from '../changes/index.ts';
import { Changes } from './changes.tsx';
import { wholePage } from './whole-page.ts';

/** A whole HTML document, of one comparison or of several plans in a folder. */
export function printChanges(subjects: readonly ChangesSubject[], tool: string): string {
  const views = subjects.map((subject) => changesOf({ ...subject, root: '' }));
  const parts = views.map((view) =>
    renderToString(
      <article>
        <Changes
          changes={view}
          layout="wide"
          open={new Set(view.changes.map(({ number }) => number))}
        />
      </article>,
    ),
  );
  const title = views.map((view) => view.title).join(', ') || 'Changes';
  return wholePage({ title, parts, tool });
}
