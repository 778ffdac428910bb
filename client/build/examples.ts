/** The examples that the scripts show, by what they are for. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './paths.ts';

/** The main file of the whole terminal: many links, readings, every verdict. */
export const terminalExample = join(root, 'examples', 'kestrel-quay-terminal', 'terminal.lwl');

export function requireExample(file: string): string {
  if (!existsSync(file)) throw new Error(`The example ${file} is missing from this clone.`);
  return file;
}
