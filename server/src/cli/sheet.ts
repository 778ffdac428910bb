/** `sheet`: what a tester takes to the site, for paper. */
import type { Command } from 'commander';
import type { Instant } from '../project/instant.ts';
import { sheetPaper } from '../report/sheet/paper.ts';
import { CommandError } from './console.ts';
import { openPaths } from './open.ts';
import { asOfOption, outOption, repeatedOption } from './options.ts';
import { deliver, documentedPlan, onlyPlan } from './paper.ts';

interface SheetOptions {
  readonly out?: string;
  readonly link?: readonly string[];
  readonly asOf: Instant;
}

export function addSheet(program: Command): void {
  program
    .command('sheet')
    .description('write a field sheet: what to test, in walking order, with limits and cautions')
    .argument('<path>', 'a plan: its folder or a file of it')
    .addOption(outOption())
    .addOption(
      repeatedOption('--link <name>', 'only this link or channel; else all that have work'),
    )
    .addOption(asOfOption())
    .action(async (path: string, options: SheetOptions) => {
      const { plans } = await openPaths([path], options.asOf);
      const plan = onlyPlan(plans);
      const missing = options.link?.find((name) => !plan.result.link(name));
      if (missing !== undefined) {
        throw new CommandError(`There is no link or channel ${missing} in this plan.`);
      }
      const paper = sheetPaper(
        documentedPlan(plan, options.asOf),
        options.link ? { links: options.link } : {},
      );
      const { printPaper } = await import('../report/page/paper-document.tsx');
      await deliver(printPaper(paper), options.out);
    });
}
