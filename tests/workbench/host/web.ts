/**
 * The same VS Code without a machine behind it: its files served as they are on
 * 127.0.0.1, no remote side, extensions in a web worker, a workspace in memory.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { build } from 'esbuild';
import { root } from '../../../client/build/paths.ts';
import { settings } from './settings.ts';

export interface WebPlaces {
  /** The folder that `installWorkbench` gave. */
  readonly server: string;
  /** The unpacked extension. */
  readonly extension: string;
  /** What lies in the workspace; the first file is opened. */
  readonly files: Readonly<Record<string, string | Uint8Array>>;
}

export interface WebServer {
  readonly address: string;
  /** Runs a command on a file of the workspace. */
  run(command: string, file: string): void;
  close(): void;
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
};

export async function serveWeb({ server, extension, files }: WebPlaces): Promise<WebServer> {
  const script = workbenchScript(server);
  const suite = await bundleSuite();
  const folders: Readonly<Record<string, string>> = { vscode: server, extension };
  const told: object[] = [];
  const inBase64 = Object.fromEntries(
    Object.entries(files).map(([name, file]) => [
      name,
      Buffer.from(file as string).toString('base64'),
    ]),
  );
  const listening = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://127.0.0.1').pathname);
    const made = page(path, String(request.headers.host));
    const body = made ?? fromDisk(path);
    if (body === undefined) {
      response.writeHead(404).end();
      return;
    }
    const type = path === '/' ? 'text/html' : types[extname(path)];
    response.writeHead(200, {
      'content-type': type ? `${type}; charset=utf-8` : 'application/octet-stream',
      // The worker of the extension host has no origin of its own.
      'access-control-allow-origin': '*',
    });
    response.end(body);
  });
  await new Promise<void>((done) => listening.listen(0, '127.0.0.1', done));
  const { port } = listening.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}/`,
    run: (command, file) => void told.push({ command, file }),
    close() {
      listening.close();
      listening.closeAllConnections();
    },
  };

  function page(path: string, host: string): string | undefined {
    if (path === '/') return frame(host);
    if (path === '/vscode/out/vs/code/browser/workbench/workbench.js') return script;
    if (path === '/extension/suite.js') return suite;
    if (path === '/extension/workspace.json') return JSON.stringify(inBase64);
    if (path === '/extension/told.json') return JSON.stringify(told.splice(0));
    // Extensions that this server carries without their half for the web.
    return /^\/vscode\/extensions\/.*\/browser\/.*\.js$/.test(path) ? '' : undefined;
  }

  function fromDisk(path: string): Buffer | undefined {
    const [, first = '', ...rest] = normalize(path).split('/');
    const folder = folders[first];
    const file = folder && join(folder, ...rest);
    if (!file || !existsSync(file) || !statSync(file).isFile()) return undefined;
    return readFileSync(file);
  }
}

/**
 * The workbench as this server's makers changed it asks for a remote side and keeps the
 * user's settings there; both places are put back to what a workbench without one does.
 */
function workbenchScript(server: string): string {
  let text = readFileSync(join(server, 'out/vs/code/browser/workbench/workbench.js'), 'utf8');
  for (const [what, by] of [
    [/,remoteAuthority:location\.host\}/, '}'],
    [
      /\.with\(\{scheme:\w+\.vscodeRemote\}\),"User"\)/,
      '.with({scheme:"vscode-userdata"}),"User")',
    ],
  ] as const) {
    if (!what.test(text))
      throw new Error(`This VS Code starts in another way: ${what} is not there.`);
    text = text.replace(what, by);
  }
  return text;
}

async function bundleSuite(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(root, 'tests/workbench/host/web-suite.ts')],
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'cjs',
    external: ['vscode'],
  });
  return outputFiles[0]?.text ?? '';
}

function frame(host: string): string {
  const at = (path: string) => ({ scheme: 'http', authority: host, path });
  const configuration = {
    folderUri: { scheme: 'tmp', path: '/kestrel-quay' },
    developmentOptions: {
      extensions: [at('/extension')],
      extensionTestsPath: at('/extension/suite.js'),
    },
    configurationDefaults: settings,
    userDataPath: '/',
    isEnabledFileDownloads: false,
    isEnabledFileUploads: false,
    isEnabledCoderGettingStarted: false,
    webviewEndpoint: '/vscode/out/vs/workbench/contrib/webview/browser/pre/',
    productConfiguration: { extensionsGallery: undefined },
  };
  const data = JSON.stringify(configuration).replaceAll('&', '&amp;').replaceAll('"', '&quot;');
  const out = '/vscode/out';
  return `<!DOCTYPE html>
<html><head><meta charset="utf-8">
<meta id="vscode-workbench-web-configuration" data-settings="${data}">
<link rel="stylesheet" href="${out}/vs/code/browser/workbench/workbench.css">
</head><body aria-label="">
<script>globalThis._VSCODE_FILE_ROOT = new URL('${out}/', location.href).href;</script>
<script type="module" src="${out}/nls.messages.js"></script>
<script type="module" src="${out}/vs/code/browser/workbench/workbench.js"></script>
</body></html>`;
}
