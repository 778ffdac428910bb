/** A printed page as one HTML file: its own styles, no script, nothing fetched, the cautions at its end. */
import { escaped } from './escaped.ts';
import { sheets } from './sheets.ts';

interface WholePage {
  readonly title: string;
  /** Rendered, with every name in them escaped. */
  readonly parts: readonly string[];
  /** Name and version of the tool that writes it. */
  readonly tool: string;
}

export function wholePage({ title, parts, tool }: WholePage): string {
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
