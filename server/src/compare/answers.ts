/** What people decided about doubts and evidence: silences, concessions and withdrawals of the new state that the old one lacks. */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { tokenize } from '../../../grammar/src/tokens.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Place } from '../model/types.ts';
import { nameOf } from '../model/values.ts';
import type { BlockView } from '../project/types.ts';
import type { PlanState } from './types.ts';

/** Something that a person answers for. */
export interface Answer {
  /** `The silence of no-uncertainty`, `The concession of KQ-OPS-B3`. */
  readonly said: string;
  /** As signed; undefined where nobody is named. */
  readonly by?: string;
  readonly place: Place;
}

/** Answers of `after` that no answer of `before` equals, in order of the text. A layout that is another is no other answer. */
export function newAnswers(before: PlanState, after: PlanState): readonly Answer[] {
  const old = new Map<string, number>();
  for (const text of textsOf(before)) old.set(text, (old.get(text) ?? 0) + 1);
  // What stands in both as it was says nothing new, and is not read.
  const fresh = blocksOf(after).filter((block) => !take(old, block.text));
  const gone = new Map<string, number>();
  for (const block of blocksOf(before)) {
    if (!take(old, block.text)) continue;
    for (const { content } of answersIn(block)) gone.set(content, (gone.get(content) ?? 0) + 1);
  }
  return fresh.flatMap((block) =>
    answersIn(block).flatMap(({ content, answer }) => (take(gone, content) ? [] : [answer])),
  );
}

const blocksOf = ({ files }: PlanState): readonly BlockView[] =>
  files.flatMap(({ blocks }) => blocks);
const textsOf = (state: PlanState): readonly string[] => blocksOf(state).map(({ text }) => text);

/** Takes one of a kind out of what is left. */
function take(left: Map<string, number>, key: string): boolean {
  const count = left.get(key) ?? 0;
  if (count === 0) return false;
  left.set(key, count - 1);
  return true;
}

interface Held {
  /** What it says, without layout: equal where nothing but blanks and comments differ. */
  readonly content: string;
  readonly answer: Answer;
}

function answersIn(block: BlockView): Held[] {
  return block
    .bound()
    .entries.flatMap((entry) => [...silences(entry, block), ...decisions(entry, block)]);
}

function silences(declaration: BoundEntry, block: BlockView): Held[] {
  return (declaration.body?.entries ?? []).flatMap((entry) => {
    if (entry.word !== W.silence) return [];
    const said = `The answer to ${nameOf(entry.slots.finding) ?? 'a doubt'}`;
    return [held(said, nameOf(entry.slots[K.by]), entry, block)];
  });
}

function decisions(entry: BoundEntry, block: BlockView): Held[] {
  if (entry.word !== W.concession && entry.word !== W.withdraw) return [];
  const signed = entry.body?.entries.find(({ word }) => word === W.by);
  const what = entry.word === W.concession ? 'The concession' : 'The withdrawal';
  const of = nameOf(entry.slots.object) ?? 'evidence';
  return [held(`${what} of ${of}`, nameOf(signed?.slots.person), entry, block)];
}

function held(said: string, by: string | undefined, entry: BoundEntry, block: BlockView): Held {
  const { start, end } = entry.span;
  return {
    content: contentOf(block.text.slice(start, end)),
    answer: {
      said,
      ...(by === undefined ? {} : { by }),
      place: { block: block.id, span: entry.span },
    },
  };
}

/** The tokens of a text, whatever stands between them. */
function contentOf(text: string): string {
  return tokenize(text)
    .pieces.map(({ startOffset, endOffset }) => text.slice(startOffset, endOffset))
    .join('\n');
}
