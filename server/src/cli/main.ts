/** The command line: `linkwright`. Exit codes: 0 nothing wrong, 1 something is, 2 could not run. */
import { Command, CommanderError } from 'commander';
import { addCheck } from './check.ts';
import { addCompare } from './compare.ts';
import { CommandError, reason, say } from './console.ts';
import { addExplain } from './explain.ts';
import { addFormat } from './format.ts';
import { addImport } from './import.ts';
import { addLsp } from './lsp.ts';
import { addMerge } from './merge.ts';
import { addNew } from './new.ts';
import { addRecord } from './record.ts';
import { addResults } from './results.ts';
import { addSheet } from './sheet.ts';
import { toolName } from './version.ts';

const program = new Command('linkwright')
  .description('Plans of optical-fibre links as text: limits, budgets, readings and verdicts.')
  .version(toolName, '--version', 'say which version this is')
  .showHelpAfterError('(--help says more)')
  .exitOverride()
  .configureHelp({ sortSubcommands: false });

for (const add of [
  addCheck,
  addCompare,
  addResults,
  addSheet,
  addRecord,
  addImport,
  addMerge,
  addFormat,
  addExplain,
  addNew,
  addLsp,
])
  add(program);

void run();

/** Not at the top level: the bundle is CommonJS, which cannot wait there. */
async function run(): Promise<void> {
  try {
    await program.parseAsync();
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? 0 : 2;
    } else {
      say(error instanceof CommandError ? error.message : `The tool failed: ${reason(error)}`);
      process.exitCode = 2;
    }
  }
}
