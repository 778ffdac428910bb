/** The help of a word of the language: shared by hover, completion and signature help. */
import { argumentsOf, asSentence, timesOf } from '../../../grammar/src/binding.ts';
import type { BoundBlock, BoundEntry } from '../../../grammar/src/bound.ts';
import type { Span } from '../../../grammar/src/tree.ts';
import {
  type Context,
  findWord,
  signature,
  type WordEntry,
} from '../../../grammar/src/vocabulary/index.ts';

/** The vocabulary entry of the word at an offset of a block. */
export function wordAt(
  block: BoundBlock,
  offset: number,
): { entry: WordEntry; span: Span } | undefined {
  let context: Context = 'file';
  let entries: readonly BoundEntry[] = block.entries;
  for (;;) {
    const entry = entries.find(({ span }) => span.start <= offset && offset <= span.end);
    const meaning: WordEntry | undefined = entry && findWord(entry.word, context);
    if (!entry || !meaning) return undefined;
    if (entry.wordSpan.start <= offset && offset <= entry.wordSpan.end)
      return { entry: meaning, span: entry.wordSpan };
    if (!entry.body || !meaning.block) return undefined;
    context = meaning.block;
    entries = entry.body.entries;
  }
}

/** What its page says: signature of every form, how often it stands, the help, an example, each argument. */
export function wordAsMarkdown(entry: WordEntry): string {
  const forms = entry.forms.map((form) => signature(entry, form)).join('\n');
  const help = `${asSentence(timesOf(entry))} ${entry.doc}`;
  const fence = (text: string) => ['```linkwright', text, '```'];
  return [...fence(forms), help, ...fence(entry.example), ...argumentsOf(entry)].join('\n');
}
