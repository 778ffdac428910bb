/**
 * Writes what is made from the vocabulary and the library: highlighting, language
 * configuration, snippets, word pages and the page of the library. With `--check` it writes nothing, names what is
 * stale and ends with 1.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { languageConfiguration } from './src/outputs/configuration.ts';
import { libraryPage } from './src/outputs/library.ts';
import { wordPages } from './src/outputs/pages.ts';
import { snippets } from './src/outputs/snippets.ts';
import { textmateGrammar } from './src/outputs/textmate.ts';

const here = import.meta.dirname;
const json = (value: object): string => `${JSON.stringify(value, null, 2)}\n`;

const wanted = new Map<string, string>([
  [join(here, 'highlighting/linkwright.tmLanguage.json'), json(textmateGrammar())],
  [join(here, 'highlighting/language-configuration.json'), json(languageConfiguration())],
  [join(here, 'highlighting/snippets.json'), json(snippets())],
]);
for (const [name, text] of wordPages()) wanted.set(join(here, 'words', name), text);

const libraryFolder = join(here, 'library');
const library = readdirSync(libraryFolder)
  .filter((name) => name.endsWith('.lwl'))
  .map((name) => [name, readFileSync(join(libraryFolder, name), 'utf8')] as const);
wanted.set(join(libraryFolder, 'README.md'), libraryPage(new Map(library)));

const stale = [...wanted].filter(
  ([path, text]) => !existsSync(path) || readFileSync(path, 'utf8') !== text,
);
const left = ['highlighting', 'words']
  .map((folder) => join(here, folder))
  .filter((folder) => existsSync(folder))
  .flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
  .filter((path) => !wanted.has(path));

if (process.argv.includes('--check')) {
  for (const path of [...stale.map(([path]) => path), ...left]) {
    console.error(`${relative(process.cwd(), path)} is stale: run \`npm run generate\`.`);
  }
  process.exitCode = stale.length + left.length > 0 ? 1 : 0;
} else {
  for (const [path, text] of stale) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  for (const path of left) rmSync(path);
  console.log(`${stale.length} written, ${left.length} removed, of ${wanted.size}.`);
}
