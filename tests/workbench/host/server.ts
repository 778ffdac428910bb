/** Starts the VS Code server on 127.0.0.1 and says where it listens. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

export interface ServerPlaces {
  /** The folder that `installWorkbench` gave. */
  readonly server: string;
  /** Data of this run: settings, state, logs. */
  readonly data: string;
  readonly extensions: string;
  /** Lets a page name the extension under development and its suite. */
  readonly driver: boolean;
  readonly port?: number;
}

export interface RunningServer {
  readonly port: number;
  readonly process: ChildProcess;
}

export async function startServer(places: ServerPlaces): Promise<RunningServer> {
  const running = spawn(
    process.execPath,
    [
      'out/server-main.js',
      ...['--host', '127.0.0.1', '--port', String(places.port ?? 0)],
      '--without-connection-token',
      '--accept-server-license-terms',
      ...(places.driver ? ['--enable-smoke-test-driver'] : []),
      ...['--server-data-dir', places.data],
      ...['--extensions-dir', places.extensions],
      '--disable-telemetry',
      '--disable-workspace-trust',
    ],
    {
      cwd: places.server,
      // Asks no gallery of extensions, and nothing else outside this machine.
      env: { ...process.env, EXTENSIONS_GALLERY: '{}' },
      stdio: ['ignore', 'pipe', 'pipe'],
    },
  );
  const said: string[] = [];
  running.stderr.on('data', (part) => said.push(String(part)));
  for await (const line of createInterface({ input: running.stdout })) {
    said.push(`${line}\n`);
    const port =
      /http:\/\/127\.0\.0\.1:(\d+)/.exec(line)?.[1] ?? /listening on (\d+)/.exec(line)?.[1];
    if (port) {
      running.stdout.resume();
      return { port: Number(port), process: running };
    }
  }
  throw new Error(`The VS Code server did not start:\n${said.join('')}`);
}
