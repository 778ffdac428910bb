/** `format`: rewrites plans canonically, each file whole or not at all. */
import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { URI } from 'vscode-uri';
import { formatText } from '../../../grammar/src/format.ts';
import { decodeFile } from '../project/index.ts';
import { answer, say } from './console.ts';
import { filesIn, toPath } from './open.ts';
import { writeWhole } from './whole-file.ts';

interface FormatOptions {
  readonly check?: boolean;
}

export function addFormat(program: Command): void {
  program
    .command('format')
    .description('rewrite plans in canonical form')
    .argument('[path...]', 'folders or files; the working folder if there are none')
    .option('--check', 'only say which files would change')
    .action(async (paths: readonly string[], { check = false }: FormatOptions) => {
      const changed: string[] = [];
      for (const uri of await filesIn(paths)) {
        if (await formatFile(uri, check)) changed.push(toPath(uri));
      }
      await answer(changed.map((path) => `${path}\n`).join(''), undefined);
      const count = `${changed.length} ${changed.length === 1 ? 'file' : 'files'}`;
      say(check ? `${count} not in canonical form.` : `${count} rewritten.`);
      if (check && changed.length > 0) process.exitCode = 1;
    });
}

/** True if the file is not in canonical form. */
async function formatFile(uri: string, check: boolean): Promise<boolean> {
  const path = URI.parse(uri).fsPath;
  const { text, problem } = decodeFile(await readFile(path));
  if (problem) {
    say(`${toPath(uri)} is left as it is: it is not a text in UTF-8.`);
    return false;
  }
  const { text: formatted, refused } = formatText(text);
  for (const { line, because } of refused) {
    say(`${toPath(uri)}:${line + 1}: left as it is: ${because}`);
  }
  if (formatted === text) return false;
  if (!check) await writeWhole(path, formatted);
  return true;
}
