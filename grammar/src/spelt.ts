/** How names and texts of other places are written into a plan. */
import { parseBlock } from './parser.ts';

/** A name as it must be written: bare where one bare run reads back as that name, else in quotes. */
export function spelt(name: string): string {
  const [entry] = parseBlock(`note ${name}\n`).entries;
  const [argument, ...more] = entry?.lists[0]?.arguments ?? [];
  const bare =
    argument?.kind === 'name' &&
    argument.text === name &&
    more.length === 0 &&
    entry?.lists.length === 1;
  return bare ? name : quoted(name);
}

/** A text on one line, in quotes; line ends and control characters become blanks. */
export function quoted(text: string): string {
  const line = text.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ');
  return `"${line.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`;
}
