/** The frame of a page in the editor: nothing is loaded but our own script and style, nothing leaves it. */
import * as vscode from 'vscode';

interface Framed {
  /** Name of its script and of its sheet in `dist`. */
  readonly bundle: string;
  readonly title: string;
  /** What the page knows from the start, as attributes of its body. */
  readonly data: Readonly<Record<string, string>>;
}

export function framed(extension: vscode.Uri): vscode.WebviewOptions {
  return {
    enableScripts: true,
    localResourceRoots: [vscode.Uri.joinPath(extension, 'dist')],
  };
}

export function frameOf(
  webview: vscode.Webview,
  extension: vscode.Uri,
  { bundle, title, data }: Framed,
): string {
  const nonce = freshNonce();
  const dist = vscode.Uri.joinPath(extension, 'dist');
  const script = webview.asWebviewUri(vscode.Uri.joinPath(dist, `${bundle}.js`));
  const style = webview.asWebviewUri(vscode.Uri.joinPath(dist, `${bundle}.css`));
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource}`,
    `font-src ${webview.cspSource}`,
    `img-src ${webview.cspSource} data:`,
  ].join('; ');
  const known = Object.entries(data)
    .map(([name, value]) => ` data-${name}="${escapeAttribute(value)}"`)
    .join('');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${style}">
<title>${title}</title>
</head>
<body${known}>
<main id="page"></main>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}

function freshNonce(): string {
  return crypto.randomUUID().replaceAll('-', '');
}

function escapeAttribute(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
}
