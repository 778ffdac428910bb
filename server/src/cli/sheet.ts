/** `sheet`: what a tester takes to the site, for paper. */
import { type Command, Option } from 'commander';
import type { Instant } from '../project/instant.ts';
import type { PageSize } from '../report/paper/pdf.ts';
import { sheetPaper } from '../report/sheet/paper.ts';
import { CommandError } from './console.ts';
import { openPaths } from './open.ts';
import { asOfOption, outOption, repeatedOption } from './options.ts';
import { deliver, documentedPlan, endingOf, onlyPlan, pageOption, setPaper } from './paper.ts';

const formats = ['html', 'pdf'] as const;

interface SheetOptions {
  readonly format?: (typeof formats)[number];
  readonly page: PageSize;
  readonly out?: string;
  readonly link?: readonly string[];
  readonly asOf: Instant;
}

export function addSheet(program: Command): void {
  program
    .command('sheet')
    .description('write a field sheet: what to test, in walking order, with limits and cautions')
    .argument('<path>', 'a plan: its folder or a file of it')
    .addOption(
      new Option('--format <format>', 'form of the sheet; else as --out ends, else html').choices(
        formats,
      ),
    )
    .addOption(pageOption())
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
      await deliver(await setPaper(paper, formatOf(options), options.page), options.out);
    });
}

function formatOf({ format, out }: SheetOptions): (typeof formats)[number] {
  return format ?? formats.find((each) => each === endingOf(out)) ?? 'html';
}
