/** `new`: a folder with a small plan to begin from. */
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Command } from 'commander';
import { answer, CommandError, reason } from './console.ts';
import plan from './starter/plan.lwl';
import readings from './starter/readings.lwl';

/** The files of a new plan, by name. */
const starter: Readonly<Record<string, string>> = {
  'plan.lwl': plan,
  'readings.lwl': readings,
};

export function addNew(program: Command): void {
  program
    .command('new')
    .description('begin a plan in a new or empty folder')
    .argument('<dir>', 'the folder')
    .action(async (folder: string) => {
      await writeStarter(folder);
      await answer(
        `${Object.keys(starter)
          .map((name) => join(folder, name))
          .join('\n')}\n`,
        undefined,
      );
    });
}

/** Nothing is ever written over: a folder that holds something is refused. */
async function writeStarter(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
    if ((await readdir(folder)).length > 0) {
      throw new CommandError(`${folder} is not empty; a new plan begins in a folder of its own.`);
    }
    for (const [name, text] of Object.entries(starter)) {
      await writeFile(join(folder, name), text, { flag: 'wx' });
    }
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(`Cannot begin a plan in ${folder}: ${reason(error)}.`);
  }
}
