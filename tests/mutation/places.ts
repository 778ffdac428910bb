/**
 * The places of the changes that are drawn, for the runner: given these alone it
 * changes nothing else and need not count, for each test, thousands of lines that
 * nobody asks about.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Change, isDrawn } from './drawn.ts';

/** As the runner takes them, `file:line:column-line:column`, lines from 1 and columns from 0; each once. */
export async function placesDrawn(
  root: string,
  files: readonly string[],
  seed: string,
  share: number,
): Promise<readonly string[]> {
  const places = (await changesIn(root, files))
    .filter((change) => isDrawn(change, seed, share))
    .map(({ fileName, location: { start, end } }) => {
      const file = fileName.slice(root.length + 1).replaceAll('\\', '/');
      return `${file}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
    });
  return [...new Set(places)];
}

/** Every change that the runner would make in these files. */
async function changesIn(root: string, files: readonly string[]): Promise<readonly Change[]> {
  // Its own parts, found as it finds them: no version of ours can differ from it.
  const runner = createRequire(createRequire(import.meta.url).resolve('@stryker-mutator/core'));
  const part = async (name: string) => import(pathToFileURL(runner.resolve(name)).href);
  const { createInstrumenter } = await part('@stryker-mutator/instrumenter');
  const { createInjector } = await part('typed-inject');
  const nothing = () => false;
  const logger = { isDebugEnabled: nothing, debug: nothing, trace: nothing, info: nothing };
  const maker: Maker = createInjector()
    .provideValue('logger', { ...logger, warn: nothing, error: nothing, fatal: nothing })
    .injectFunction(createInstrumenter);
  const texts = files.map((file) => ({
    name: join(root, file),
    content: readFileSync(join(root, file), 'utf8'),
    mutate: true,
  }));
  const options = { ignorers: [], plugins: null, excludedMutations: [] };
  return (await maker.instrument(texts, options)).mutants;
}

interface Maker {
  instrument(files: object, options: object): Promise<{ readonly mutants: readonly Change[] }>;
}
