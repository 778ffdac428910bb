/** `import`: readings from a CSV file or a workbook, by a stated mapping, behind what stands in a file of a plan. */
import { readFile } from 'node:fs/promises';
import { basename, dirname, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { URI } from 'vscode-uri';
import {
  type AboutRow,
  appended,
  type Imported,
  importReadings,
  unwatched,
} from '../import/index.ts';
import { decodeFile, sameAddress } from '../project/index.ts';
import type { Plan } from '../project/types.ts';
import { beginThread } from '../workbook/begin.ts';
import { answer, CommandError, reason, say } from './console.ts';
import { openPaths } from './open.ts';
import { asOfOption } from './options.ts';
import { writeWhole } from './whole-file.ts';

/** Milliseconds of work that nobody needs to be told of. */
const quiet = 1000;

interface ImportOptions {
  readonly mapping: string;
  readonly into: string;
  readonly dryRun?: boolean;
  readonly asOf: Parameters<typeof openPaths>[1];
}

export function addImport(program: Command): void {
  program
    .command('import')
    .description('read readings from a CSV file or a workbook into a file of a plan')
    .argument('<file>', 'the table: .csv in UTF-8, or .xlsx')
    .requiredOption('--mapping <file>', 'JSON that says what its columns mean')
    .requiredOption('--into <file>', 'file of a plan; the readings come behind what stands in it')
    .addOption(new Option('--dry-run', 'only say what would be written'))
    .addOption(asOfOption())
    .action(async (file: string, { mapping, into, dryRun = false, asOf }: ImportOptions) => {
      const [bytes, words, target] = [await read(file), await read(mapping), await read(into)];
      const before = textOf(into, target);
      const imported = await importReadings(
        {
          plan: await planWith(into, asOf),
          name: basename(file),
          bytes,
          mapping: textOf(mapping, words).replace(/^\uFEFF/u, ''),
          begin: beginThread,
        },
        { ...unwatched, report: progress() },
      );
      if ('problems' in imported) {
        const at = imported.of === 'mapping' ? mapping : file;
        throw new CommandError(imported.problems.map((each) => `${at}: ${each}`).join('\n'));
      }
      await answer(listed(imported), undefined);
      if (imported.readings > 0 && !dryRun) {
        if (!(await read(into)).equals(target)) {
          throw new CommandError(
            `${into} was changed meanwhile. Nothing was written: import again.`,
          );
        }
        await writeWhole(into, appended(before, imported.text));
      }
      say(summary(imported, into, dryRun));
      if (imported.left.length > 0) process.exitCode = 1;
    });
}

/** The plan that the file is part of: looked for in its folder, then in the working folder. */
async function planWith(into: string, asOf: ImportOptions['asOf']): Promise<Plan> {
  const address = sameAddress(URI.file(resolve(into)).toString());
  for (const folder of new Set([dirname(into), '.'])) {
    const { plans } = await openPaths([folder], asOf);
    const found = plans.find(({ files }) => files.includes(address));
    if (found && (found.root !== address || found.result.order.length > 0)) return found;
  }
  throw new CommandError(
    `${into} is part of no plan with links: include it in one, so that the rows can be matched.`,
  );
}

async function read(path: string): Promise<Buffer> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new CommandError(`Cannot read ${path}: ${reason(error)}.`);
  }
}

function textOf(path: string, bytes: Uint8Array): string {
  const { text, problem } = decodeFile(bytes);
  if (problem) throw new CommandError(`${path} is no text in UTF-8.`);
  return text;
}

function listed({ left, duplicates }: Imported): string {
  const lines = (all: readonly AboutRow[], kind: string) =>
    all.map(({ row, what }) => `row ${row}: ${kind}: ${what}\n`);
  return [...lines(left, 'not taken'), ...lines(duplicates, 'duplicate')].join('');
}

function summary(imported: Imported, into: string, dry: boolean): string {
  const { readings, blocks, rows, left, duplicates } = imported;
  const count = (number: number, one: string, more = `${one}s`) =>
    `${number.toLocaleString('en')} ${number === 1 ? one : more}`;
  const done = dry ? 'would be written' : 'written';
  return [
    readings === 0
      ? `Nothing new in ${count(rows, 'row')}; ${into} stays as it is.`
      : `${count(readings, 'reading')} of ${count(rows, 'row')} ${done} into ${into}, in ${count(blocks, 'block')}.`,
    ...(duplicates.length > 0
      ? [`${count(duplicates.length, 'duplicate')} not written again.`]
      : []),
    ...(left.length > 0 ? [`${count(left.length, 'thing')} not taken, listed above.`] : []),
  ].join(' ');
}

/** Every tenth of long work, on standard error. */
function progress(): (done: number, all: number) => void {
  let shown = 0;
  const begun = Date.now();
  return (done, all) => {
    const tenth = Math.floor((done / all) * 10);
    if (tenth <= shown || Date.now() - begun < quiet) return;
    shown = tenth;
    say(`${tenth * 10} %`);
  };
}
