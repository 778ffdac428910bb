/**
 * The sentence of each finding that the notation alone can make, and how grave
 * it is. One table, so that the words can be read, compared and changed in one
 * place. Each says what is the matter and what to do.
 */
import type { Severity } from './tree.ts';

type Details = Readonly<Record<string, string | number>>;

interface Sentence {
  readonly severity: Severity;
  readonly message: (details: Details) => string;
  /** Title of the fix, where the finding has one. */
  readonly fix?: (details: Details) => string;
}

const error = (message: Sentence['message'], fix?: Sentence['fix']): Sentence => ({
  severity: 'error',
  message,
  ...(fix && { fix }),
});
const warning = (message: Sentence['message'], fix?: Sentence['fix']): Sentence => ({
  severity: 'warning',
  message,
  ...(fix && { fix }),
});
const grouped = (count: string | number | undefined) =>
  String(count).replace(/\B(?=(?:\d{3})+$)/gu, ',');
const writeInstead = (d: Details) => `Write ${d.instead}`;

/** Findings of single characters, texts and numbers. */
const lexical = {
  'stray-character': error(
    (d) => {
      if (d.unseen) return `A character that cannot be seen, ${d.written}, is skipped. Remove it.`;
      if (d.instead) return `${d.written} has no meaning here and is skipped. Write ${d.instead}.`;
      return `${d.written} has no meaning here and is skipped. Remove it, or put the name in quotes.`;
    },
    (d) => (d.instead === undefined ? 'Remove what has no meaning' : `Write ${d.instead}`),
  ),
  'unseen-in-text': error(
    (d) => `This text holds a character that cannot be seen, ${d.written}. Remove it.`,
    () => 'Remove what cannot be seen',
  ),
  'needs-quotes': error(
    (d) =>
      `${d.written} holds a character that only a name in quotes may hold. Write ${d.instead}.`,
    writeInstead,
  ),
  'decimal-comma': error(
    (d) =>
      d.point === undefined
        ? `In a list a blank follows each comma. Write ${d.list}.`
        : `${d.written} can be a decimal comma or a list. Write ${d.point} for one number, or ${d.list} for a list.`,
    () => 'Write the comma as it is meant',
  ),
  'decimal-comma-in-row': error(
    (d) =>
      d.rows === undefined
        ? `A decimal is written with a point. Write ${d.point}.`
        : `Decimals are written with a point, ${d.point} here, and so on in ${d.rows} rows.`,
    (d) => (d.rows === undefined ? `Write ${d.point}` : `Write points in ${d.rows} rows`),
  ),
  'plus-sign': error(
    (d) => `${d.written}: a number has no plus sign. Write ${d.instead}.`,
    writeInstead,
  ),
  'point-at-end': error(
    (d) => `${d.written} ends in a point. Write ${d.instead}, or the digits after the point.`,
    writeInstead,
  ),
  unreadable: error(
    (d) => `${d.written} is neither a number, a date nor a range. As a name it needs quotes.`,
    writeInstead,
  ),
  'unreadable-range': error(
    (d) => `${d.written}: a range is written with two points, ${d.instead}.`,
    writeInstead,
  ),
  'unreadable-date': error(
    (d) =>
      `${d.written}: a date is written as year, month and day, ${d.instead ?? 'such as 2026-03-14'}.`,
    writeInstead,
  ),
  'no-such-day': error((d) => `The calendar has no day ${d.written}.`),
  'no-such-time': error((d) => `${d.written} is no time of day; they go from 00:00 to 23:59.`),
  'range-descending': error(
    (d) => `${d.written} runs downwards. Write the smaller number first, ${d.instead}.`,
    writeInstead,
  ),
  'range-digits': error(
    (d) =>
      `${d.written}: with leading zeros both numbers have as many digits. Write ${d.instead}, or leave the zeros out.`,
    writeInstead,
  ),
  'range-too-long': error((d) => `${d.written}: a range names at most ${grouped(d.most)} members.`),
  'range-step': error(
    (d) =>
      `From ${d.first} in steps of ${d.step}, ${d.last} is not met. Choose a step that divides ${Number(d.last) - Number(d.first)}.`,
  ),
  'odd-arrow': error((d) => `${d.written}: a direction is written ${d.instead}.`, writeInstead),
  'open-text': error(
    () => 'This text is not closed. Put " where it ends.',
    () => 'Close the text',
  ),
  'other-quotes': warning(
    () => 'Texts stand between straight double quotes.',
    () => 'Write straight quotes',
  ),
  'unknown-escape': error(
    () =>
      'In a text a backslash stands only before " or before another backslash. Write two of them; paths use /.',
    () => 'Write two backslashes',
  ),
  'comment-needs-blank': warning(
    () => 'A comment after something needs a blank before #.',
    () => 'Put a blank before #',
  ),
  'line-too-long': error(
    (d) =>
      `This line has more than ${grouped(d.most)} characters and is skipped. Break it after a comma.`,
  ),
  binary: error(() => 'This is not text of a plan: it holds control characters. It is skipped.'),
  'merge-conflict': error(
    () =>
      'A merge conflict was not resolved. Only its first side is read; keep one side and remove the markers.',
  ),
} satisfies Record<string, Sentence>;

/** Findings of lines, braces and commas. */
const structure = {
  'block-left-open': error(
    () => 'This block is not closed. Write } on a line of its own where it ends.',
    () => 'Close the block',
  ),
  'stray-close': error(
    () => 'This } closes nothing. Remove it.',
    () => 'Remove }',
  ),
  'missing-open': error(
    (d) =>
      `The lines below ${d.word} belong to it, but its { is missing. Write { at the end of this line.`,
    () => 'Write { at the end of the line',
  ),
  'brace-apart': warning(
    () => 'The { belongs at the end of the line above.',
    () => 'Move { to the line above',
  ),
  'brace-without-word': error(
    () => 'This { opens a block without a word. Write the word before it, or remove it.',
  ),
  'block-on-one-line': warning(
    () => 'A block has a line for each entry, and its } stands alone.',
    () => 'Give each entry its own line',
  ),
  'nested-too-deep': error(
    (d) => `Blocks stand in each other at most ${d.most} deep. This one is skipped.`,
  ),
  'lines-outside': error(
    () => 'These lines stand after the closing } and belong to no declaration. Move them into one.',
  ),
  'block-without-head': error(
    () =>
      'These lines and the } below them have no opening line. Write it above them, or take the } out.',
  ),
  'block-in-rows': error(
    () => 'After columns only rows follow, and a row opens no block. Move it above columns.',
  ),
  'columns-again': error(
    () => 'A block has one table. Put these columns and their rows into a block of their own.',
  ),
  'columns-empty': error(() => 'columns needs its headings, separated by commas.'),
  'comma-alone': error(
    () =>
      'There is nothing between this comma and its neighbour. Remove it, or write what is missing.',
    () => 'Remove the comma',
  ),
  'comma-at-end': error(
    () =>
      'The list ends in a comma. Remove it, or go on with the list on the next line, further in than this one.',
    () => 'Remove the comma',
  ),
  'comma-missing': error(
    () => 'The list goes on in the next line. End this line in a comma.',
    () => 'Add the comma',
  ),
  'comma-in-row': error(
    () => 'The cells of a row stand apart by blanks, not by commas.',
    (d) => (d.rows === undefined ? 'Remove the commas' : `Remove the commas of ${d.rows} rows`),
  ),
  'minus-apart': error(
    () => 'A minus stands directly before its number.',
    () => 'Join the minus and its number',
  ),
  'format-loses': error(
    () => 'Formatting would change more than blanks here, so this declaration stays as it is.',
  ),
  'not-read': error(() => 'This declaration could not be read. Please report its text.'),
} satisfies Record<string, Sentence>;

const sentences: Readonly<Record<string, Sentence>> = { ...lexical, ...structure };

/** Names of all findings that the notation makes. */
export const notationFindings: readonly string[] = Object.keys(sentences);

/** Names of those that {@link notationFindings} makes of single characters and tokens. */
export const lexicalFindings: ReadonlySet<string> = new Set(Object.keys(lexical));

/** The sentence of a finding, its severity and the title of its fix. */
export function sentenceOf(
  name: string,
  details: Details = {},
): { severity: Severity; message: string; fixTitle: string | undefined } {
  const sentence = sentences[name];
  if (!sentence) throw new Error(`no sentence for ${name}`);
  return {
    severity: sentence.severity,
    message: sentence.message(details),
    fixTitle: sentence.fix?.(details),
  };
}
