/**
 * Binding: walks the tree of a block and the vocabulary together. Every entry
 * gets its word, every argument its slot and value; what does not fit becomes a
 * finding at its place, and the rest goes on. Total on every tree.
 */
import { lines, oneFindingALine } from './binding/lines.ts';
import { matchEntry } from './binding/match.ts';
import { nearest } from './binding/nearest.ts';
import { type Details, finding, oneOf, replace } from './binding/sentences.ts';
import { bindTable, type TableMistake } from './binding/table.ts';
import type { Mistake, Where } from './binding/values.ts';
import type { BoundBlock, BoundBody, BoundEntry, BoundTable, Value } from './bound.ts';
import type { BlockTree, Body, Entry, NotationFinding, Span } from './tree.ts';
import {
  type Context,
  canonical,
  findWord,
  meaningsOf,
  neededIn,
  soughtAs,
  tableOf,
  W,
  type WordEntry,
  wordsIn,
} from './vocabulary/index.ts';

export { contextAt, type TextContext } from './binding/context.ts';
export { argumentsOf, asSentence, timesOf } from './binding/help.ts';
export * from './binding/lists.ts';
export { type BindingFindingName, bindingFindings } from './binding/sentences.ts';
export { describe as describeKinds } from './binding/wording.ts';

/**
 * Binds one block of text. The findings are the tree's and those of binding
 * together, in the order of the text, at most one a line: what the lexer and
 * the brace pass said stands before what binding says.
 */
export function bindBlock(tree: BlockTree, text: string): BoundBlock {
  const binder = new Binder(text);
  const entries = tree.entries.map((entry) => binder.bindTop(entry));
  if (binder.findings.length === 0) return { tree, entries, findings: tree.findings };
  // What the lexer said of rows that no heading explains may be no mistake at all.
  const lexed = tree.findings.filter(
    ({ span }) => !binder.unread.some((rows) => holds(rows, span)),
  );
  const findings = oneFindingALine(lexed, binder.findings, binder.ofRows, lines(text));
  return { tree, entries, findings };
}

/** The word of a context that is nearest in letters, or else in meaning. */
function likely(entry: Entry, context: Context, where: Where): string | undefined {
  const words = wordsIn(context).map(({ word }) => word);
  return nearest(entry.word.text, words) ?? soughtFor(entry, context, where);
}

/**
 * The word of a context that says what this one says elsewhere, or says it of one or of many;
 * of several the first that takes what stands behind it.
 */
function soughtFor(entry: Entry, context: Context, where: Where): string | undefined {
  const { text } = entry.word;
  const one = text.replace(/s$/u, '');
  const words = [`${one}s`, ...soughtAs(text), one].flatMap((word) =>
    word === text ? [] : (findWord(word, context) ?? []),
  );
  const fitting = words.find((word) => matchEntry(entry, word, where).mistakes.length === 0);
  return (fitting ?? words[0])?.word;
}

/** `LC connector`: the word stands behind the name, as it is said. */
function wordBehind({ lists, word }: Entry, context: Context): string | undefined {
  const [behind, ...more] = lists[0]?.arguments ?? [];
  if (lists.length !== 1 || more.length > 0 || behind?.kind !== 'name') return undefined;
  return findWord(behind.text, context) && `${canonical(behind.text)} ${word.text}`;
}

/**
 * Whether a line is that word but for some letters of it: then it is read as meant, and what it
 * says is not missed elsewhere. Another word of the trade may say something else in its place.
 */
function isMisspelt(entry: Entry, meant: WordEntry, where: Where): boolean {
  const hasBlock = entry.body !== undefined;
  return (
    nearest(entry.word.text, [meant.word]) !== undefined &&
    (meant.block ? hasBlock || meant.blockOptional === true : !hasBlock) &&
    matchEntry(entry, meant, where).mistakes.length === 0
  );
}

class Binder {
  readonly findings: NotationFinding[] = [];
  /** Those said of rows. */
  readonly ofRows = new Set<NotationFinding>();
  /** Rows below no heading, after the first of them. */
  readonly unread: Span[] = [];
  readonly #text: string;
  /** Some brace of the declaration stands open: what it lacks is not asked for. */
  #open = false;
  #inPattern = false;

  constructor(text: string) {
    this.#text = text;
  }

  bindTop(entry: Entry): BoundEntry {
    this.#open = hasOpenBrace(entry);
    // A word that is none may have been `pattern`: whether holes may stand there is not known.
    this.#inPattern =
      canonical(entry.word.text) === W.pattern || findWord(entry.word.text, 'file') === undefined;
    return this.#bindEntry(entry, 'file');
  }

  #bindEntry(entry: Entry, context: Context | undefined): BoundEntry {
    const { span } = entry;
    const wordSpan = entry.word.span;
    const known = context && findWord(entry.word.text, context);
    const where = { text: this.#text, holes: this.#inPattern };
    const meant = context && !known ? this.#explainWord(entry, context, where) : undefined;
    const word = known ?? (meant && isMisspelt(entry, meant, where) ? meant : undefined);
    if (!word) {
      const body = entry.body && this.#bindBody(entry, entry.body, meant?.block, undefined);
      return { word: '', span, wordSpan, slots: {}, ...(body ? { body } : {}) };
    }
    const match = matchEntry(entry, word, where);
    for (const mistake of match.mistakes) this.#say(mistake);
    this.#askForBlock(entry, word);
    const bound: BoundEntry = { word: word.word, span, wordSpan, slots: match.slots };
    if (!entry.body) return bound;
    return { ...bound, body: this.#bindBody(entry, entry.body, word.block, match.slots) };
  }

  /** Says why a word does not stand here; gives the one that was meant, if one is near. */
  #explainWord(entry: Entry, context: Context, where: Where): WordEntry | undefined {
    const { text, span } = entry.word;
    if (text === '') return undefined;
    const words = wordsIn(context);
    const elsewhere = meaningsOf(text);
    const behind = elsewhere.length > 0 ? undefined : wordBehind(entry, context);
    if (behind !== undefined) {
      const both = { start: span.start, end: lastOf(entry).end };
      const fix = replace(`Write \`${behind}\``, both, behind);
      this.#find(
        'unknown-word',
        span,
        { word: text, place: placeOf(context), nearest: behind },
        fix,
      );
      return undefined;
    }
    const meant =
      elsewhere.length > 0 ? soughtFor(entry, context, where) : likely(entry, context, where);
    const more: Details = meant === undefined ? {} : { nearest: meant };
    const fix = meant === undefined ? undefined : replace(`Write \`${meant}\``, span, meant);
    const place = placeOf(context);
    if (elsewhere.length > 0) {
      const belongs = oneOf(
        [...new Set(elsewhere.flatMap((meaning) => meaning.contexts))].map(named),
      );
      this.#find('word-not-here', span, { word: text, belongs, place, ...more }, fix);
      return undefined;
    }
    this.#find('unknown-word', span, { word: text, place, ...more }, fix);
    return words.find((word) => word.word === meant);
  }

  #askForBlock(entry: Entry, word: WordEntry): void {
    if (word.block && !entry.body && !word.blockOptional) {
      const { end } = lastOf(entry);
      this.#find(
        'missing-block',
        entry.word.span,
        { word: word.word },
        replace('Open and close the block', { start: end, end }, ' {\n}'),
      );
    }
    if (entry.body && !word.block) {
      this.#find('block-not-here', entry.word.span, { word: word.word });
    }
  }

  #bindBody(
    owner: Entry,
    body: Body,
    context: Context | undefined,
    slots: BoundEntry['slots'] | undefined,
  ): BoundBody {
    const said: number[] = [];
    const entries = body.entries.map((entry) => {
      said.push(this.findings.length);
      return this.#bindEntry(entry, context);
    });
    if (context) {
      this.#askOnce(entries, context);
      const rows = body.table ? undefined : rowsWithoutColumns(entries, context);
      const from = rows === undefined ? undefined : said[rows];
      if (rows !== undefined && from !== undefined) {
        this.findings.length = from;
        this.#askForColumns(owner, body.entries.slice(rows));
      }
      if (slots && !this.#open) {
        this.#askForMissing(owner, body, entries, context, rows === undefined);
      }
    }
    const table = body.table && this.#bindTable(owner, body, entries, context, slots);
    return {
      span: body.span,
      entries,
      open: body.close === undefined,
      ...(table ? { table } : {}),
    };
  }

  #bindTable(
    owner: Entry,
    body: Body,
    entries: readonly BoundEntry[],
    context: Context | undefined,
    slots: BoundEntry['slots'] | undefined,
  ): BoundTable | undefined {
    const { table } = body;
    if (!table || !context) return undefined;
    const spec = tableOf(context);
    if (!spec) {
      this.#find('columns-not-here', table.word, {
        block: canonical(owner.word.text),
        columns: W.columns,
      });
      return undefined;
    }
    const values = entries.filter((entry) => entry.word === W.values);
    const named = slots?.object !== undefined;
    const where = { text: this.#text, holes: false };
    const bound = bindTable(table, spec, values, named, where);
    for (const mistake of bound.mistakes) this.#say(mistake);
    return bound.table;
  }

  /** A word that may stand once, or once for its key, and stands again. */
  #askOnce(entries: readonly BoundEntry[], context: Context): void {
    const seen = new Map<string, Span>();
    for (const entry of entries) {
      const word = entry.word && findWord(entry.word, context);
      if (!word || word.times === '*' || word.times === '+') continue;
      const keys = word.times === 'k' ? keysOf(entry, word.key ?? []) : [''];
      let said = false;
      for (const key of keys) {
        const name = `${entry.word} ${key}`;
        const before = seen.get(name);
        if (!before) {
          seen.set(name, entry.wordSpan);
        } else if (!said) {
          said = true;
          this.findings.push(
            finding(
              'repeated-word',
              entry.wordSpan,
              { word: entry.word, key: key.trim().replace(/\n+/gu, ' ') },
              {
                related: [{ span: before, message: 'It stands here already.' }],
              },
            ),
          );
        }
      }
    }
  }

  /** Rows whose `columns` is missing or misspelt are one mistake, at the line where it should stand. */
  #askForColumns(owner: Entry, rows: readonly Entry[]): void {
    const [first] = rows;
    if (!first) return;
    const { text, span } = first.word;
    this.unread.push({ start: first.span.end, end: rows.at(-1)?.span.end ?? first.span.end });
    const meant = nearest(text, [W.columns]) !== undefined || text.startsWith(W.columns);
    this.#find(
      'rows-without-columns',
      span,
      { block: canonical(owner.word.text), columns: W.columns, ...(meant ? { word: text } : {}) },
      meant && !text.startsWith(W.columns)
        ? replace(`Write \`${W.columns}\``, span, W.columns)
        : undefined,
    );
  }

  #askForMissing(
    owner: Entry,
    body: Body,
    entries: readonly BoundEntry[],
    context: Context,
    table: boolean,
  ): void {
    const block = canonical(owner.word.text);
    const excused = entries.some(({ word }) => word === W.like || word === '');
    const missing = excused
      ? []
      : neededIn(context).filter((needed) => !entries.some(({ word }) => word === needed.word));
    if (missing.length > 0) {
      const words = oneOf(
        missing.map((word) => word.word),
        'and',
      );
      this.#find('missing-word', owner.word.span, { block, words });
    }
    if (table && tableOf(context)?.required && !body.table) {
      this.#find('missing-columns', owner.word.span, { block, columns: W.columns });
    }
  }

  #find(
    name: Parameters<typeof finding>[0],
    span: Span,
    details: Details,
    fix?: NotationFinding['fix'],
  ): void {
    this.findings.push(finding(name, span, details, { fix }));
  }

  #say(mistake: Mistake | TableMistake): void {
    const { name, span, details, fix, related } = mistake;
    const found = finding(name, span, details, { fix, related });
    this.findings.push(found);
    if ('row' in mistake) this.ofRows.add(found);
  }
}

/**
 * Index of the first of the lines that end a block as rows do, without a word
 * that is known, where the block should end in a table and has none.
 */
function rowsWithoutColumns(entries: readonly BoundEntry[], context: Context): number | undefined {
  if (!tableOf(context)?.required || entries.at(-1)?.word !== '') return undefined;
  return entries.findLastIndex(({ word }) => word !== '') + 1;
}

const holds = (outer: Span, inner: Span): boolean =>
  outer.start <= inner.start && inner.end <= outer.end;

function hasOpenBrace(entry: Entry): boolean {
  const { body } = entry;
  return body !== undefined && (body.close === undefined || body.entries.some(hasOpenBrace));
}

/** End of what is written on an entry's line. */
function lastOf(entry: Entry): Span {
  return entry.lists.at(-1)?.span ?? entry.word.span;
}

/** The keys of an entry: every combination of what its key slots name. */
function keysOf(entry: BoundEntry, slots: readonly string[]): string[] {
  let keys = [''];
  for (const slot of slots) {
    const names = entry.slots[slot]?.flatMap(keyOf) ?? [];
    keys = keys.flatMap((key) => (names.length ? names : ['']).map((name) => `${key}\n${name}`));
  }
  return keys;
}

function keyOf(value: Value): string[] {
  switch (value.kind) {
    case 'name':
    case 'text':
    case 'choice':
      return [value.text];
    case 'whole':
      return [String(value.value)];
    case 'wholes': {
      const keys: string[] = [];
      for (let n = value.first; n <= value.last; n += value.step) keys.push(String(n));
      return keys;
    }
    case 'quantity':
      return [`${Number(value.digits)} ${value.unit.name}`];
    case 'date':
      return [`${value.value.day} ${value.value.minutes ?? ''}`];
    case 'direction':
      return [value.value];
    default:
      return [`at ${value.span.start}`];
  }
}

const placeOf = (context: Context): string => (context === 'file' ? 'a file' : `\`${context}\``);
const named = (context: Context): string => (context === 'file' ? 'the file itself' : context);
