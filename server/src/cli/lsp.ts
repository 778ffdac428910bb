/** `lsp`: the language server for any editor, over standard input and output. */
import type { Command } from 'commander';
import { serve } from '../session/node.ts';

export function addLsp(program: Command): void {
  program
    .command('lsp')
    .description('run the language server for an editor')
    .requiredOption('--stdio', 'talk over standard input and output')
    .action(() => serve());
}
