/**
 * `merge`: three states of one file to one, as git calls it. Exit codes: 0
 * merged, 1 conflicts are left between markers, 2 could not run and nothing
 * is written.
 */
import { readFile } from 'node:fs/promises';
import type { Command } from 'commander';
import { merge } from '../merge/index.ts';
import { decodeFile } from '../project/index.ts';
import { CommandError, reason, say } from './console.ts';
import { writeWhole } from './whole-file.ts';

export function addMerge(program: Command): void {
  program
    .command('merge')
    .description('merge two states of a file with what both come from; readings of both stay')
    .argument('<base>', 'the state that both come from; may be empty')
    .argument('<ours>', 'our state, over which the result is written')
    .argument('<theirs>', 'their state')
    .argument('[path]', 'name of the file in messages')
    .action(async (base: string, ours: string, theirs: string, path: string = ours) => {
      const [from, mine, other] = await Promise.all([base, ours, theirs].map(read));
      const { text, conflicts, beside } = merge(from!, mine!, other!);
      if (text !== mine) await writeWhole(ours, text);
      if (beside > 0) {
        const blocks = beside === 1 ? 'a block' : `${beside} blocks`;
        say(`${path}: both sides measured; what they typed stands in ${blocks} behind ours.`);
      }
      if (conflicts > 0) {
        const places = conflicts === 1 ? '1 place' : `${conflicts} places`;
        say(`${path}: both sides changed ${places}. Choose between the markers.`);
        process.exitCode = 1;
      }
    });
}

async function read(path: string): Promise<string> {
  const bytes = await readFile(path).catch((error: unknown) => {
    throw new CommandError(`Cannot read ${path}: ${reason(error)}. Nothing was written.`);
  });
  const { text, problem } = decodeFile(bytes);
  if (problem) {
    throw new CommandError(`${path} is not a text in UTF-8. Nothing was written.`);
  }
  return text;
}
