import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  type CompletionParams,
  InsertTextFormat,
  MarkupKind,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import { contextAt } from '../../../grammar/src/binding.ts';
import type { NameKind } from '../../../grammar/src/bound.ts';
import { toNanometres, units } from '../../../grammar/src/quantity/index.ts';
import {
  type Form,
  K,
  type Slot,
  tableOf,
  type WordEntry,
  wordsIn,
} from '../../../grammar/src/vocabulary/index.ts';
import { checks } from '../checks/index.ts';
import type { Plan, Range } from '../project/types.ts';
import { feature, subject } from './feature.ts';
import { wordAsMarkdown } from './word-help.ts';

/** Names offered for one slot; the list is asked for again as letters narrow it. */
const MOST_NAMES = 300;

/**
 * What may stand at the cursor, from the vocabulary and the plan's names: words
 * of the block, keywords and choices of the line, names of the kind wanted,
 * units after a number, headings of a table.
 */
export const completion = feature<CompletionParams, CompletionList | null>({
  method: 'textDocument/completion',
  capabilities: { completionProvider: { triggerCharacters: [' ', ','], resolveProvider: false } },
  answer(session, { textDocument, position, context }) {
    const found = subject(session, textDocument.uri);
    const block = found?.document.blockAt(position);
    if (!found || !block) return null;
    const { document, plan } = found;
    const offset = document.offsetIn(block, position);
    const line = document.line(position.line).slice(0, position.character);
    if (isInTextOrComment(line)) return null;
    const at = contextAt(block.bound().tree, block.text, offset);
    const replaced: Range = at.touched
      ? { start: document.rangeOf(block, at.touched).start, end: position }
      : { start: position, end: position };
    const offer = new Offer(replaced);
    if (at.inTable === 'row') {
      for (const slot of at.expected) offerSlot(offer, slot, plan);
      if (at.heading?.kind === 'reading')
        offer.add(K.dark, CompletionItemKind.EnumMember, 'no light seen', '1');
    } else if (at.inTable === 'headings') {
      const table = at.context && tableOf(at.context);
      for (const column of table?.columns ?? [])
        offer.add(column.word, CompletionItemKind.Property, column.doc, '1');
      if (table?.readings)
        offerReadings(offer, plan, at.enclosing.length > 0 ? plan?.objectsIn(block.id) : []);
    } else if (at.word) {
      // Before the first argument every form of the word is still open.
      const slots = at.slotIndex === 0 ? at.word.forms.flatMap(firstSlots) : at.expected;
      for (const slot of slots) offerSlot(offer, slot, plan);
      if (plan && behindReels.test(line)) offerReels(offer, plan, line);
    } else if (at.context && (context?.triggerCharacter === undefined || line.trim() === '')) {
      // At the margin only declarations stand; inside, the words of the block.
      for (const entry of wordsIn(at.context))
        offerWord(offer, entry, session.snippets, at.context !== 'file');
    }
    return { isIncomplete: offer.cut, items: offer.items };
  },
});

/** What a form may begin with: all up to the first argument that it cannot do without. */
function firstSlots({ slots }: Form): readonly Slot[] {
  const required = slots.findIndex((slot) => slot.required && !slot.keyword);
  return required < 0 ? slots : slots.slice(0, required + 1);
}

class Offer {
  readonly items: CompletionItem[] = [];
  cut = false;
  readonly #range: Range;
  readonly #seen = new Set<string>();

  constructor(range: Range) {
    this.#range = range;
  }

  add(
    label: string,
    kind: CompletionItemKind,
    detail: string | undefined,
    rank: string,
    extra: Partial<CompletionItem> = {},
  ): void {
    if (this.#seen.has(label)) return;
    this.#seen.add(label);
    const textEdit: TextEdit = { range: this.#range, newText: label };
    this.items.push({
      label,
      kind,
      detail,
      sortText: `${rank}${String(this.items.length).padStart(4, '0')}`,
      textEdit,
      ...extra,
    });
  }

  insert(newText: string): TextEdit {
    return { range: this.#range, newText };
  }
}

function offerWord(offer: Offer, entry: WordEntry, snippets: boolean, inside: boolean): void {
  const required = entry.times === '1' || entry.times === '+' ? '0' : '1';
  const name = entry.forms[0].slots.find(({ kinds }) =>
    kinds.some((kind) => kind.kind === 'name' && kind.declares),
  );
  const opens = entry.block && !entry.blockOptional;
  const gap = inside && !opens ? ' '.repeat(Math.max(1, 12 - entry.word.length)) : ' ';
  const body =
    opens && snippets ? `${entry.word}${name ? ` \${1:NAME}` : ''} {\n  $0\n}` : undefined;
  offer.add(entry.word, CompletionItemKind.Keyword, entry.example, required, {
    documentation: { kind: MarkupKind.Markdown, value: wordAsMarkdown(entry) },
    textEdit: offer.insert(body ?? `${entry.word}${entry.forms[0].slots.length > 0 ? gap : ''}`),
    insertTextFormat: body ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    command:
      body || entry.forms[0].slots.length === 0
        ? undefined
        : { title: 'Suggest', command: 'editor.action.triggerSuggest' },
  });
}

function offerSlot(offer: Offer, slot: Slot, plan: Plan | undefined): void {
  if (slot.keyword) {
    offer.add(slot.keyword, CompletionItemKind.Keyword, slot.label || undefined, '2');
    return;
  }
  for (const kind of slot.kinds) {
    if (kind.kind === 'choice')
      for (const choice of kind.choices)
        offer.add(choice, CompletionItemKind.EnumMember, undefined, '0');
    if (kind.kind === 'name' && !kind.declares)
      for (const of of kind.of) offerNames(offer, of, plan);
    if (kind.kind === 'direction')
      for (const direction of ['A>B', 'B>A'])
        offer.add(direction, CompletionItemKind.EnumMember, undefined, '1');
    if (kind.kind === 'quantity') {
      for (const unit of units) {
        if (unit.dimension === kind.dimension)
          offer.add(
            unit.name,
            CompletionItemKind.Unit,
            kind.dimension,
            unit.name === kind.unit ? '3' : '4',
          );
      }
    }
  }
}

const objects: readonly NameKind[] = ['link', 'channel', 'ring', 'cable'];

function offerNames(offer: Offer, kind: NameKind, plan: Plan | undefined): void {
  if (kind === 'finding') {
    for (const check of checks)
      offer.add(check.name, CompletionItemKind.Reference, check.title, '1');
    return;
  }
  if (kind === 'colour') {
    for (const { name, fibres, tubes, jackets, bodies } of plan?.orders() ?? [])
      for (const colour of new Set([
        ...tubes,
        ...fibres,
        ...[...jackets, ...bodies].flatMap(({ colours }) => colours),
      ]))
        offer.add(colour, CompletionItemKind.Color, name, '1', {
          textEdit: offer.insert(/^[\w-]+$/u.test(colour) ? colour : `"${colour}"`),
        });
    return;
  }
  for (const one of kind === 'object' ? objects : [kind]) {
    for (const thing of plan?.named(one) ?? []) {
      if (offer.items.length >= MOST_NAMES) {
        offer.cut = true;
        return;
      }
      const library = thing.origin === 'library';
      offer.add(
        thing.name,
        CompletionItemKind.Reference,
        library ? 'library' : thing.title,
        library ? '1' : '0',
      );
    }
  }
}

/** The keyword, and names of the list behind it so far. */
const behindReels = new RegExp(`\\s${K.reels}\\s+(?:\\S+,\\s*)*\\S*$`, 'u');

/** Reels of the cable that the line names. */
function offerReels(offer: Offer, plan: Plan, line: string): void {
  for (const word of line.split(/\s+/u)) {
    for (const { name, written } of plan.cable(word)?.reels ?? [])
      offer.add(name, CompletionItemKind.Reference, written, '0');
  }
}

/** The columns that the object of the table still wants: its wavelengths and directions. */
function offerReadings(offer: Offer, plan: Plan | undefined, names: readonly string[] = []): void {
  for (const name of names) {
    const { measure, directions } = plan?.result.link(name)?.link.terms ?? {};
    for (const wavelength of measure ?? []) {
      for (const direction of directions?.wanted ?? []) {
        offer.add(
          `${toNanometres(wavelength)} nm ${direction}`,
          CompletionItemKind.Property,
          'a reading the plan wants',
          '0',
        );
      }
    }
  }
}

/** Inside quotes or behind `#` nothing is offered: what stands there is a person's own words. */
function isInTextOrComment(before: string): boolean {
  let quoted = false;
  for (let index = 0; index < before.length; index += 1) {
    const character = before[index];
    if (quoted && character === '\\') index += 1;
    else if (character === '"') quoted = !quoted;
    else if (character === '#' && !quoted && (index === 0 || /\s/u.test(before[index - 1] ?? '')))
      return true;
  }
  return quoted;
}
