/**
 * What a declaration says with what it takes over by `like`: its own entries
 * first, then those of the one it is like that have another word or key.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import {
  type Context,
  elementWords,
  findWord,
  K,
  W,
} from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { keeping } from './kept.ts';
import { resolve, unknownName } from './resolve.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import { lesserTrust, trustByEntry } from './trust.ts';
import { has, nameOf, placeOf, valuePlace } from './values.ts';

export interface Entries {
  readonly lines: readonly PlacedEntry[];
  readonly findings: readonly ModelFinding[];
  /** Some line, of it or of what it is like, could not be read. */
  readonly misread: boolean;
  /** What it is like. */
  readonly base?: Declaration;
}

/** Words that `like` never brings: ends, path, reels, evidence, former names, and where figures stand. */
const neverTaken: ReadonlySet<string> = new Set([
  W.like,
  W.from,
  W.to,
  W.taken,
  W.checked,
  W.verified,
  W.disturbed,
  W.was,
  W.basis,
  W.reel,
  W.repair,
]);

/** Kinds whose blocks hold a path; that of a cable is its reels and the splices between them. */
const pathKinds: ReadonlySet<string> = new Set([W.link, W.channel, W.ring, W.pattern, W.cable]);

/** As {@link readEntries}, kept for what many take over or use. */
export const entriesOf = keeping(readEntries);

export function readEntries(declaration: Declaration, scope: Scope): Entries {
  const trusts = trustByEntry(declaration.entries);
  const own = declaration.entries.map((entry) => ({
    block: declaration.block,
    entry,
    trust: trusts.get(entry),
  }));
  const line = own.find(({ entry }) => entry.word === W.like);
  const name = line && nameOf(line.entry.slots.name);
  if (!line || name === undefined) {
    return { lines: own, findings: [], misread: declaration.misread.length > 0 };
  }

  const findings: ModelFinding[] = [];
  const taken: PlacedEntry[] = [];
  const kinds = new Set(own.flatMap(({ entry }) => keysOf(entry, declaration.kind)));
  const chain = [declaration];
  let base = baseOf(declaration, line, scope, findings);
  // What is brought is no better known here than where it stands.
  let trusted = line.trust;
  while (base) {
    if (chain.includes(base)) {
      const circle = chain.slice(chain.indexOf(base)).map((link) => link.name);
      // One circle is one mistake: the first of its names speaks of it.
      if (circle[0] === declaration.name && isFirst(declaration.name, circle)) {
        findings.push(
          finding('like-cycle', valuePlace(line, line.entry.slots.name![0]!), {
            name: declaration.name,
            chain: [...circle, base.name].join(' like '),
          }),
        );
      }
      break;
    }
    chain.push(base);
    const { block } = base;
    const there = trustByEntry(base.entries);
    for (const entry of base.entries) {
      if (!isTaken(entry, declaration.kind)) continue;
      const keys = keysOf(entry, declaration.kind);
      if (keys.length > 0 && keys.every((key) => kinds.has(key))) continue;
      for (const key of keys) kinds.add(key);
      taken.push({
        block,
        entry,
        trust: lesserTrust(trusted, there.get(entry)),
        taken: placeOf(line),
      });
    }
    const next = base.entries.find((entry) => entry.word === W.like);
    if (next) trusted = lesserTrust(trusted, there.get(next));
    base = next && baseOf(base, { block, entry: next }, scope, []);
  }
  const misread = chain.length === 1 || chain.some((one) => one.misread.length > 0);
  const [, first] = chain;
  return { lines: [...own, ...taken], findings, misread, ...(first && { base: first }) };
}

/** Whether no other of some names stands before it, by their letters. */
export function isFirst(name: string, names: readonly string[]): boolean {
  return names.every((other) => name <= other);
}

function baseOf(
  declaration: Declaration,
  line: PlacedEntry,
  scope: Scope,
  findings: ModelFinding[],
): Declaration | undefined {
  const value = line.entry.slots.name?.[0];
  const name = value && nameOf([value]);
  if (!value || name === undefined) return undefined;
  if (name === declaration.name) {
    const beneath = scope.beneath(declaration);
    if (!beneath) {
      findings.push(
        finding('like-cycle', valuePlace(line, value), { name, chain: `${name} like ${name}` }),
      );
    }
    return beneath;
  }
  const base = resolve(declaration.kind, value, scope);
  const unknown = base
    ? undefined
    : unknownName([declaration.kind], value, valuePlace(line, value), scope);
  if (unknown) findings.push(unknown);
  return base;
}

function isTaken(entry: BoundEntry, kind: string): boolean {
  if (neverTaken.has(entry.word)) return false;
  if (pathKinds.has(kind) && elementWords.has(entry.word)) return false;
  return !(kind === W.setup && entry.word === W.cord && has(entry, K.since));
}

/** What an entry is the only one of in its block; empty for words that add. One key for each name of a list. */
function keysOf(entry: BoundEntry, context: string): string[] {
  const word = findWord(entry.word, context as Context);
  if (!word || word.times === '*' || word.times === '+') return [];
  if (word.times !== 'k') return [entry.word];
  let keys = [entry.word];
  for (const slot of word.key ?? []) {
    const values = entry.slots[slot]?.map(contentOf) ?? [''];
    keys = keys.flatMap((key) => values.map((value) => `${key} ${value}`));
  }
  return keys;
}

/** A value without its place, as text: quantities by size, so that 0.85 um and 850 nm in picometres are one. */
function contentOf(value: Value): string {
  switch (value.kind) {
    case 'quantity':
      return `${value.dimension}:${value.base}`;
    case 'whole':
      return String(value.value);
    case 'wholes':
      return `${value.first}..${value.last}/${value.step}`;
    case 'date':
      return `${value.value.day}T${value.value.minutes ?? ''}`;
    case 'direction':
      return value.value;
    default:
      return 'text' in value ? value.text : value.kind;
  }
}
