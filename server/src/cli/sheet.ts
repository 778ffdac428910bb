/** `sheet`: what a tester takes to the site, for paper. */
import { type Command, Option } from 'commander';
import type { Instant } from '../project/instant.ts';
import type { PageSize } from '../report/paper/pdf.ts';
import { recordedPlan, type SheetFormat, sheetFormats, writtenSheet } from '../report/papers.ts';
import { CommandError } from './console.ts';
import { openPaths } from './open.ts';
import { asOfOption, outOption, repeatedOption } from './options.ts';
import { deliver, endingOf, onlyPlan, pageOption } from './paper.ts';
import { toolName } from './version.ts';

interface SheetOptions {
  readonly format?: SheetFormat;
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
        sheetFormats,
      ),
    )
    .addOption(pageOption())
    .addOption(outOption())
    .addOption(
      repeatedOption('--link <name>', 'only this link or channel; else all that have work'),
    )
    .addOption(asOfOption())
    .action(async (path: string, options: SheetOptions) => {
      const { project, plans } = await openPaths([path], options.asOf);
      const plan = onlyPlan(plans);
      const missing = options.link?.find((name) => !plan.result.link(name));
      if (missing !== undefined) {
        throw new CommandError(`There is no link or channel ${missing} in this plan.`);
      }
      const recorded = recordedPlan(plan, (uri) => project.document(uri)?.text(), {
        tool: toolName,
        issue: false,
      });
      const { link: links, page } = options;
      await deliver(
        await writtenSheet(recorded, formatOf(options), { ...(links ? { links } : {}), page }),
        options.out,
      );
    });
}

function formatOf({ format, out }: SheetOptions): SheetFormat {
  return format ?? sheetFormats.find((each) => each === endingOf(out)) ?? 'html';
}
