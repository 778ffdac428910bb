/** What blocks of text hold, one thing each: declarations, tables and their rows, evidence, and what was decided about it. */
import type { BoundEntry, BoundRow, Heading } from '../../../../grammar/src/bound.ts';
import { K, W } from '../../../../grammar/src/vocabulary/index.ts';
import { isDeclaredKind } from '../../model/declare.ts';
import { nameOf } from '../../model/values.ts';
import type { HeldBlock, SaidEntry } from './side.ts';

export interface DeclaredUnit extends SaidEntry {
  readonly kind: string;
  readonly name: string;
  readonly title?: string | undefined;
}

export interface RowUnit {
  readonly kind: typeof W.link | typeof W.channel;
  readonly name: string;
  readonly row: BoundRow;
  readonly head: TableUnit;
}

/** A block of links or channels. */
export interface TableUnit extends SaidEntry {
  readonly kind: typeof W.links | typeof W.channels;
  readonly title?: string | undefined;
  readonly pattern?: string | undefined;
  readonly headings: readonly Heading[];
  readonly rows: readonly RowUnit[];
  readonly names: ReadonlySet<string>;
}

export interface Units {
  readonly plans: readonly SaidEntry[];
  readonly includes: readonly SaidEntry[];
  readonly declared: readonly DeclaredUnit[];
  readonly tables: readonly TableUnit[];
  readonly evidence: readonly SaidEntry[];
  readonly statements: readonly SaidEntry[];
}

const evidenceWords: ReadonlySet<string> = new Set([W.readings, W.events, W.inspection]);
const statementWords: ReadonlySet<string> = new Set([W.work, W.withdraw, W.concession]);

export function unitsOf(blocks: readonly HeldBlock[]): Units {
  const plans: SaidEntry[] = [];
  const includes: SaidEntry[] = [];
  const declared: DeclaredUnit[] = [];
  const tables: TableUnit[] = [];
  const evidence: SaidEntry[] = [];
  const statements: SaidEntry[] = [];
  for (const block of blocks) {
    for (const entry of block.view.bound().entries) {
      const { word } = entry;
      if (word === W.plan) plans.push({ block, entry });
      else if (word === W.include) includes.push({ block, entry });
      else if (word === W.links || word === W.channels) {
        tables.push(tableOf(block, entry, word));
      } else if (evidenceWords.has(word)) evidence.push({ block, entry });
      else if (statementWords.has(word)) statements.push({ block, entry });
      else if (isDeclaredKind(word)) {
        const name = nameOf(entry.slots.name);
        const title = nameOf(entry.slots.title);
        if (name !== undefined) declared.push({ kind: word, name, title, block, entry });
      }
    }
  }
  return { plans, includes, declared, tables, evidence, statements };
}

function tableOf(
  block: HeldBlock,
  entry: BoundEntry,
  kind: typeof W.links | typeof W.channels,
): TableUnit {
  const headings = entry.body?.table?.headings ?? [];
  const rows: RowUnit[] = [];
  const names = new Set<string>();
  const table: TableUnit = {
    kind,
    block,
    entry,
    title: nameOf(entry.slots.title),
    pattern: nameOf(entry.slots[K.as]),
    headings,
    rows,
    names,
  };
  const of = kind === W.links ? W.link : W.channel;
  const column = headings.findIndex((each) => each.kind === 'word' && each.word === of);
  for (const row of entry.body?.table?.rows ?? []) {
    const cell = row.cells[column];
    const name = cell && nameOf([cell]);
    if (name === undefined) continue;
    rows.push({ kind: of, name, row, head: table });
    names.add(name);
  }
  return table;
}
