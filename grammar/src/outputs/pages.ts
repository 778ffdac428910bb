/** The word pages: one for each place where words stand, made from the vocabulary. */
import { argumentsOf, asSentence, describeKinds, timesOf } from '../binding.ts';
import {
  type Context,
  signature,
  type TableSpec,
  tableOf,
  vocabulary,
  type WordEntry,
  wordsIn,
} from '../vocabulary/index.ts';
import { exampleLine } from './lines.ts';
import { blockExample } from './snippets.ts';

const generated =
  '<!-- Made from the vocabulary by `npm run generate`: change grammar/src/vocabulary instead. -->';

/** Pages by file name. */
export function wordPages(): Map<string, string> {
  const contexts = [...new Set(vocabulary.flatMap((entry) => entry.contexts))];
  const pages = new Map<string, string>();
  for (const context of contexts) pages.set(`${context}.md`, page(context));
  pages.set('README.md', index(contexts));
  return pages;
}

const titles: Readonly<Partial<Record<Context, string>>> = {
  file: 'Words at the margin of a file',
};

const titleOf = (context: Context): string => titles[context] ?? `Words in \`${context}\``;

function index(contexts: readonly Context[]): string {
  const lines = contexts.map((context) => {
    const words = wordsIn(context)
      .filter((entry) => home(entry) === context || context !== 'file')
      .filter((entry) => !isEverywhere(entry))
      .map((entry) => `[\`${entry.word}\`](${home(entry)}.md#${anchor(entry)})`);
    return `- [${titleOf(context)}](${context}.md): ${words.join(', ')}`;
  });
  return [
    generated,
    '',
    '# The words',
    '',
    'Every word of the notation, by the place where it stands. The shape that they share stands in the [reference](../README.md).',
    '',
    'In a signature small letters are typed as they stand, and CAPITALS stand for what you fill in, as the list below it says. `[…]` may be left out, of `a|b` one is taken, `…` behind a name is a list with commas, `{` opens a block. Words that end in a block are shown in whole on the page of that block.',
    '',
    ...lines,
    '',
  ].join('\n');
}

const isEverywhere = (entry: WordEntry): boolean => entry.contexts.length > 12;

/** The page on which a word is described: that of the first place where it stands. */
const home = (entry: WordEntry): Context => entry.contexts[0] ?? 'file';

const anchor = (entry: WordEntry): string => entry.word.toLowerCase();

function page(context: Context): string {
  const words = wordsIn(context);
  const own = words.filter((entry) => home(entry) === context);
  const shared = words.filter((entry) => home(entry) !== context);
  const lines = [generated, '', `# ${titleOf(context)}`, ''];
  const opener = vocabulary.find((entry) => entry.block === context);
  if (opener) lines.push(opener.doc, '', ...usualBlock(opener));
  for (const entry of own) lines.push(...describeWord(entry, context));
  if (shared.length > 0) {
    lines.push('## Described elsewhere', '');
    for (const entry of shared) {
      const times = timesOf(entry);
      lines.push(`- [\`${entry.word}\`](${home(entry)}.md#${anchor(entry)}), ${times}`);
    }
    lines.push('');
  }
  const table = tableOf(context);
  if (table) lines.push(...describeTable(table));
  return lines.join('\n');
}

/** A block as it usually stands, for those that stand at the margin. */
function usualBlock(opener: WordEntry): string[] {
  const example = blockExample(opener);
  return example === undefined ? [] : ['```lwl', ...example, '```', ''];
}

function describeWord(entry: WordEntry, context: Context): string[] {
  const others = entry.contexts.filter((other) => other !== context);
  const lines = [`## ${entry.word}`, ''];
  for (const form of entry.forms) lines.push(`    ${signature(entry, form)}`);
  lines.push('', `${asSentence(timesOf(entry))} ${entry.doc}`, '');
  lines.push('```', exampleLine(entry), '```', '');
  const slots = argumentsOf(entry);
  if (slots.length > 0) lines.push(...slots, '');
  if (entry.block)
    lines.push(`In its block: [words in \`${entry.block}\`](${entry.block}.md).`, '');
  if (others.length > 0) {
    const places = others.map((other) => `[\`${other}\`](${other}.md)`).join(', ');
    lines.push(`Also in ${places}.`, '');
  }
  return lines;
}

function describeTable(table: TableSpec): string[] {
  const lines = ['## The table', ''];
  for (const column of table.columns) {
    const unit = column.dimension ? ' `in` a unit' : '';
    lines.push(`- \`${column.word}\`${unit}: ${describeKinds(column.kinds)}. ${column.doc}`);
  }
  if (table.readings) {
    lines.push(
      '- a wavelength, a direction, and what it is if not the first of `values`: a reading.',
    );
    lines.push('  `-` is not tested, `dark` is no light seen.');
  }
  if (table.holes) lines.push('- the name of a hole of the pattern, `in` a unit where it has one.');
  lines.push('');
  return lines;
}
