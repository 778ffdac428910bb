/** What the commands share that write about one plan: which it is, and where the document goes. */
import { Option } from 'commander';
import type { Plan } from '../project/types.ts';
import { CommandError } from './console.ts';
import { toPath } from './open.ts';
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
