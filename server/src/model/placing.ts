/**
 * Lays out what a link is made of: the lines of its path in order from A to B,
 * patterns put in where `as` says, their holes filled; and the layers of what
 * is wanted of it, nearest first. The text of a pattern is shared, never copied;
 * only an entry with a hole is written anew with its value.
 */

import { describeKinds } from '../../../grammar/src/binding.ts';
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import {
  type Context,
  choicesOf,
  elementWords,
  findWord,
  K,
  type Slot,
  W,
} from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import { holeValues } from './declare.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { entriesOf, isFirst, readEntries } from './like.ts';
import { nameKinds } from './references.ts';
import { resolve, unknownName } from './resolve.ts';
import { nearestSpelling, type PlacedEntry, type Scope } from './scope.ts';
import type { BlockId, Place } from './types.ts';
import { has, locationOf, placeOf } from './values.ts';

/** A line of a path where it stands now. */
export interface PathLine extends PlacedEntry {
  /** Crossed from its end to its beginning. */
  readonly turned: boolean;
  /** Of a split: what becomes of its outputs, in order of the text. */
  readonly outs?: readonly OutLine[];
}

/** Some outputs of a split. */
export interface OutLine extends PlacedEntry {
  /** The path behind each of them; undefined where they are spare or lead to the path below. */
  readonly path?: readonly PathLine[];
}

export interface Layout {
  readonly path: readonly PathLine[];
  /** Lines that are no path: of the link or row, its table, its patterns. The plan is not among them. */
  readonly layers: readonly (readonly PlacedEntry[])[];
  readonly findings: readonly ModelFinding[];
  /** A pattern of it is unknown, or contains itself: part of the path is missing. */
  readonly broken: boolean;
}

interface Filling {
  readonly values: ReadonlyMap<string, Value>;
  /** Blocks in which the values were written. */
  readonly blocks: ReadonlyMap<Value, BlockId>;
}

export function layOut(declaration: Declaration, scope: Scope): Layout {
  const findings: ModelFinding[] = [];
  const layers: PlacedEntry[][] = [];
  const { table } = declaration;
  if (!table) {
    const own = readEntries(declaration, scope);
    findings.push(...own.findings);
    const terms = own.lines.filter(({ entry }) => !elementWords.has(entry.word));
    layers.push(terms);
    const laid = new Laying(scope, layers, findings);
    const within = declaration.kind === W.pattern ? [declaration] : [];
    const path = laid.path(own.lines, false, within);
    return { path, layers, findings, broken: laid.broken };
  }
  const { block } = declaration;
  layers.push(declaration.entries.map((entry) => ({ block, entry })));
  layers.push(table.entries.map((entry) => ({ block, entry })));
  const pattern = table.pattern && scope.find(W.pattern, table.pattern.name);
  if (!table.pattern || !pattern) return { path: [], layers, findings, broken: true };
  const values = new Map([...table.holes, ...(declaration.holes ?? [])]);
  const blocks = new Map([...values.values()].map((value) => [value, block]));
  const laid = new Laying(scope, layers, findings);
  const path = laid.pattern(pattern, { values, blocks }, false, [], {
    place: declaration.place,
    column: true,
    speaksOfUnknown: declaration.first === true,
    about: declaration.name,
  });
  return { path, layers, findings, broken: laid.broken };
}

/**
 * Patterns that use patterns twice double at each step: nothing real has a path
 * of more lines, or stands deeper.
 */
const mostLines = 20_000;
const mostDeep = 32;

/** Lines of a path that stands inside another block: of a repair. */
export function layPath(
  lines: readonly PlacedEntry[],
  scope: Scope,
): Pick<Layout, 'path' | 'findings' | 'broken'> {
  const findings: ModelFinding[] = [];
  const laid = new Laying(scope, [], findings);
  return { path: laid.path(lines, false, []), findings, broken: laid.broken };
}

/** Where a pattern is used, for what there is to say about its holes. */
interface Use {
  readonly place: Place;
  readonly column: boolean;
  readonly speaksOfUnknown: boolean;
  readonly about?: string;
}

class Laying {
  broken = false;
  readonly #scope: Scope;
  readonly #layers: PlacedEntry[][];
  readonly #findings: ModelFinding[];
  #lines = 0;
  #depth = 0;
  #toldTooLong = false;

  constructor(scope: Scope, layers: PlacedEntry[][], findings: ModelFinding[]) {
    this.#scope = scope;
    this.#layers = layers;
    this.#findings = findings;
  }

  path(lines: readonly PlacedEntry[], turned: boolean, within: readonly Declaration[]): PathLine[] {
    const path: PathLine[] = [];
    const ordered = turned ? lines.toReversed() : lines;
    for (const line of ordered) {
      const { word, slots } = line.entry;
      if (!elementWords.has(word)) continue;
      if (this.#isTooLong(line)) break;
      if (word === W.as)
        for (const each of this.#as(line, slots.pattern, turned, within)) path.push(each);
      else if (word === W.split)
        path.push({ ...line, turned, outs: this.#outs(line, turned, within) });
      else path.push({ ...line, turned });
    }
    return path;
  }

  /** Light is divided on its way from A to B: nothing of a split can be turned round. */
  #outs(line: PlacedEntry, turned: boolean, within: readonly Declaration[]): OutLine[] {
    if (turned) {
      this.broken = true;
      this.#findings.push(finding('split-turned', placeOf(line), {}));
      return [];
    }
    const { block, entry, filled } = line;
    this.#depth += 1;
    const outs = (entry.body?.entries ?? []).flatMap((each): OutLine[] => {
      if (each.word !== W.out || this.#isTooLong(line)) return [];
      const out = { block, entry: each, filled };
      if (has(each, K.as))
        return [{ ...out, path: this.#as(out, each.slots[K.as], false, within) }];
      if (!each.body) return [out];
      const lines = each.body.entries.map((inner) => ({ block, entry: inner, filled }));
      return [{ ...out, path: this.path(lines, false, within) }];
    });
    this.#depth -= 1;
    return outs;
  }

  /** Said once; what is too long or too deep is left out. */
  #isTooLong(line: PlacedEntry): boolean {
    this.#lines += 1;
    const tooDeep = this.#depth > mostDeep;
    if (this.#lines <= mostLines && !tooDeep) return false;
    if (!this.#toldTooLong) {
      this.#findings.push(
        finding('path-too-long', placeOf(line), {
          ...(tooDeep ? { deepest: mostDeep } : { lines: mostLines }),
        }),
      );
    }
    this.#toldTooLong = true;
    this.broken = true;
    return true;
  }

  #as(
    line: PlacedEntry,
    named: readonly Value[] | undefined,
    turned: boolean,
    within: readonly Declaration[],
  ): PathLine[] {
    const pattern = resolve(W.pattern, named?.[0], this.#scope);
    if (!pattern) {
      this.broken = true;
      return [];
    }
    const values = holeValues(line.entry);
    const blocks = new Map(
      [...values.values()].map((value) => [value, line.filled?.get(value) ?? line.block]),
    );
    return this.pattern(pattern, { values, blocks }, has(line.entry, K.turned) !== turned, within, {
      place: placeOf(line),
      column: false,
      speaksOfUnknown: true,
    });
  }

  pattern(
    pattern: Declaration,
    filling: Filling,
    turned: boolean,
    within: readonly Declaration[],
    use: Use,
  ): PathLine[] {
    if (within.includes(pattern)) {
      this.broken = true;
      const circle = within.slice(within.indexOf(pattern)).map(({ name }) => name);
      // One circle is one mistake: the first of its names speaks of it.
      if (isFirst(pattern.name, circle)) {
        const chain = [...circle, pattern.name].join(' as ');
        this.#findings.push(finding('pattern-cycle', use.place, { name: pattern.name, chain }));
      }
      return [];
    }
    const used = new Set<string>();
    const lines = entriesOf(pattern, this.#scope).lines.map((line) =>
      this.#fill(line, W.pattern, pattern, filling, used, use),
    );
    this.#layers.push(lines.filter(({ entry }) => !elementWords.has(entry.word)));
    this.#depth += 1;
    const path = this.path(lines, turned, [...within, pattern]);
    this.#depth -= 1;
    if (use.speaksOfUnknown) this.#unknownHoles(pattern, filling, used, use);
    return path;
  }

  /** The entry with the values of its holes, and of those in its block; the same entry if it has none. */
  #fill(
    line: PlacedEntry,
    context: Context,
    pattern: Declaration,
    filling: Filling,
    used: Set<string>,
    use: Use,
  ): PlacedEntry {
    const { entry } = line;
    let slots: Record<string, readonly Value[]> | undefined;
    const filled = new Map<Value, BlockId>(line.filled);
    for (const [slot, values] of Object.entries(entry.slots)) {
      if (!values.some(({ kind }) => kind === 'hole')) continue;
      slots ??= { ...entry.slots };
      slots[slot] = values.map((value) => {
        if (value.kind !== 'hole') return value;
        const isNew = !used.has(value.name);
        used.add(value.name);
        const wanted = slotsWritten(entry, context).filter(({ name }) => name === slot);
        const given = this.#valueFor(value.name, wanted, pattern, filling, use, isNew);
        if (!given) return { kind: 'spoilt', span: value.span };
        filled.set(given, filling.blocks.get(given) ?? line.block);
        return given;
      });
    }
    const within = findWord(entry.word, context)?.block;
    let body = entry.body;
    if (within && body) {
      const entries = body.entries.map((inner) => {
        const own = { block: line.block, entry: inner };
        const made = this.#fill(own, within, pattern, filling, used, use);
        for (const [value, block] of made.filled ?? []) filled.set(value, block);
        return made.entry;
      });
      if (entries.some((made, index) => made !== body?.entries[index])) body = { ...body, entries };
    }
    if (!slots && body === entry.body) return line;
    return { block: line.block, entry: { ...entry, slots: slots ?? entry.slots, body }, filled };
  }

  #valueFor(
    hole: string,
    wanted: readonly Slot[],
    pattern: Declaration,
    filling: Filling,
    use: Use,
    isNew: boolean,
  ): Value | undefined {
    const value = filling.values.get(hole);
    if (!value || value.kind === 'absent') {
      if (isNew) {
        this.#findings.push(
          finding(
            'hole-unfilled',
            use.place,
            { pattern: pattern.name, hole, column: use.column ? 1 : 0 },
            { about: use.about },
          ),
        );
      }
      return undefined;
    }
    if (value.kind === 'hole' || value.kind === 'spoilt') return undefined;
    const block = filling.blocks.get(value);
    const place = { block: block ?? use.place.block, span: value.span };
    const made = wanted.length === 0 ? value : fitting(value, wanted);
    if (!made) {
      const kinds = wanted.flatMap(({ kinds: of }) => of);
      const given = describeGiven(value);
      this.#findings.push(
        finding('hole-misfit', place, { hole, wanted: describeKinds(kinds), given }),
      );
      return undefined;
    }
    const names = nameKinds(wanted.flatMap(({ kinds }) => kinds));
    const named = made.kind === 'name' || made.kind === 'text';
    const unknown = named && names.length > 0 && unknownName(names, made, place, this.#scope);
    if (unknown) this.#findings.push(unknown);
    return made;
  }

  #unknownHoles(pattern: Declaration, filling: Filling, used: Set<string>, use: Use): void {
    for (const [hole, value] of filling.values) {
      if (used.has(hole)) continue;
      const block = filling.blocks.get(value) ?? use.place.block;
      const nearest = nearestSpelling(hole, used);
      this.#findings.push(
        finding(
          'hole-unknown',
          { block, span: value.span },
          { pattern: pattern.name, hole, ...(nearest !== undefined && { nearest }) },
        ),
      );
    }
  }
}

/** Slots of the form in which an entry is written. */
function slotsWritten(entry: BoundEntry, context: Context): readonly Slot[] {
  const forms = findWord(entry.word, context)?.forms ?? [];
  const written = Object.keys(entry.slots);
  const form = forms.find(({ slots, holes }) =>
    written.every((slot) => holes || slots.some(({ name }) => name === slot)),
  );
  return form?.slots ?? [];
}

/** The value, if one of the slots takes its kind. */
function fitting(value: Value, slots: readonly Slot[]): Value | undefined {
  const kinds = slots.flatMap((slot) => slot.kinds);
  const fits = kinds.some((kind) => {
    switch (kind.kind) {
      case 'any':
        return true;
      case 'quantity':
        return value.kind === 'quantity' && value.dimension === kind.dimension;
      case 'name':
        return (
          value.kind === 'name' ||
          value.kind === 'names' ||
          value.kind === 'text' ||
          value.kind === 'whole'
        );
      case 'text':
        return value.kind === 'text';
      case 'wholes':
        return value.kind === 'whole' || value.kind === 'wholes';
      case 'decimal':
        return value.kind === 'decimal' || value.kind === 'whole';
      case 'choice':
      case 'map':
        return (
          value.kind === kind.kind ||
          (value.kind === 'name' && choicesOf([kind]).includes(value.text))
        );
      default:
        return value.kind === kind.kind;
    }
  });
  return fits ? value : undefined;
}

function describeGiven(value: Value): string {
  return locationOf([value]) ?? (value.kind === 'decimal' ? value.digits : `a ${value.kind}`);
}
