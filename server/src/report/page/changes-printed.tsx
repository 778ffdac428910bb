/** A comparison as one file: read without a network, printed black on white, every effect that the page holds in it. */
import renderToString from 'preact-render-to-string';
import { type ChangesSubject, changesOf } from '../changes/index.ts';
import { Changes } from './changes.tsx';
import { escaped } from './escaped.ts';
import { sheets } from './sheets.ts';

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
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${sheets}</style>
</head>
<body class="printed wide">
<main>
${parts.join('\n')}
<p class="small quiet cautions">Light in fibres cannot be seen and can harm eyes: never look into a fibre or plug; make dark and prove it first. Local codes and licensed practice decide. Written by ${escaped(tool)}.</p>
</main>
</body>
</html>
`;
}
