/** Why a command cannot run, in words for whoever called it. */

/** A command cannot run; its message is all there is to say. Exit code 2. */
export class CommandError extends Error {}

export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
