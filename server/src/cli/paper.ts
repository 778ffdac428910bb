/** What the commands share that write a document for paper: the one plan it is about, the instant in words, where it goes. */
import { Option } from 'commander';
import { type Instant, onSite } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { plainDisplay } from '../report/figures.ts';
import type { Paper } from '../report/paper/blocks.ts';
import type { PageSize } from '../report/paper/pdf.ts';
import type { Documented } from '../report/paper/plan.ts';
import { CommandError } from './console.ts';
import { toPath } from './open.ts';
import { toolName } from './version.ts';
import { writeWhole } from './whole-file.ts';

/** A document is about one plan. */
export function onlyPlan(plans: readonly Plan[]): Plan {
  const [plan, ...others] = plans;
  if (!plan) throw new CommandError('There is no plan in what was named.');
  if (others.length > 0) {
    const names = plans.map(({ root }) => toPath(root)).join(', ');
    throw new CommandError(`There are several plans: ${names}. Name one of these files.`);
  }
  return plan;
}

export function documentedPlan(plan: Plan, asOf: Instant): Documented {
  return {
    plan,
    display: plainDisplay,
    asOf: minuteInWords(onSite(asOf, plan.settings.zone)),
    tool: toolName,
  };
}

const lastMinuteOfDay = 1439;

/** `2026-03-14`, or with the time of day where it is not the end of the day. */
function minuteInWords(minute: number): string {
  const [day = '', time = ''] = new Date(minute * 60_000).toISOString().split('T');
  return minute % 1440 === lastMinuteOfDay ? day : `${day} ${time.slice(0, 5)}`;
}

/** What sets a page or a PDF is needed by no other command. */
export async function setPaper(
  paper: Paper,
  format: 'html' | 'pdf',
  page: PageSize,
): Promise<string | Uint8Array> {
  if (format === 'pdf') {
    const { paperPdf } = await import('../report/paper/pdf.ts');
    return paperPdf(paper, page);
  }
  const { printPaper } = await import('../report/page/paper-document.tsx');
  return printPaper(paper);
}

/** `pdf` of `sheet.pdf`. */
export function endingOf(out: string | undefined): string | undefined {
  return out?.slice(out.lastIndexOf('.') + 1).toLowerCase();
}

export function pageOption(): Option {
  return new Option('--page <size>', 'size of the pages of a PDF')
    .choices(['A4', 'Letter'])
    .default('A4');
}

/** To a file, whole or not at all, or to standard output. */
export async function deliver(
  content: string | Uint8Array,
  out: string | undefined,
): Promise<void> {
  if (out !== undefined) {
    await writeWhole(out, content);
    return;
  }
  await new Promise<void>((done, failed) => {
    // Whoever reads may have seen enough and gone; that is no failure.
    const settle = (error?: Error | null) =>
      !error || (error as NodeJS.ErrnoException).code === 'EPIPE' ? done() : failed(error);
    process.stdout.on('error', settle);
    process.stdout.write(content, settle);
  });
}
