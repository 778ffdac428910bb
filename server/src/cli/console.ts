/** How commands speak: answers to standard output, everything else to standard error. */
import { writeWhole } from './whole-file.ts';

export { CommandError, reason } from './command-error.ts';

/** Writes an answer to a file, whole or not at all, or to standard output. */
export async function answer(text: string, out: string | undefined): Promise<void> {
  const whole = text.endsWith('\n') || text === '' ? text : `${text}\n`;
  if (out === undefined) {
    await new Promise<void>((done, failed) => {
      // Whoever reads may have seen enough and gone; that is no failure.
      const gone = (error: unknown) => (error as NodeJS.ErrnoException).code === 'EPIPE';
      process.stdout.on('error', (error) => (gone(error) ? done() : failed(error)));
      process.stdout.write(whole, (error) => (error && !gone(error) ? failed(error) : done()));
    });
    return;
  }
  await writeWhole(out, whole);
}

export function say(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** Colour only where a person looks at it. */
export function paint(
  text: string,
  style: 'red' | 'yellow' | 'green' | 'faint' | 'bold',
  on: boolean,
): string {
  const codes = { red: 31, yellow: 33, green: 32, faint: 2, bold: 1 } as const;
  return on ? `\u001b[${codes[style]}m${text}\u001b[0m` : text;
}

export function wantsColour(out: string | undefined): boolean {
  return out === undefined && process.stdout.isTTY === true && process.env.NO_COLOR === undefined;
}
