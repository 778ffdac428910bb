/** Reads what stands in bound entries: lists of names and numbers, entries by word, holes by name. */
import type { BoundBody, BoundEntry, Value } from '../bound.ts';

/** The names that a value stands for: one, or the members of `A:01..12`. None for what is no name. */
export function expandNames(value: Value): string[] {
  if (value.kind === 'name') return [value.text];
  if (value.kind !== 'names') return [];
  const names: string[] = [];
  for (let n = value.first; n <= value.last; n += value.step) {
    names.push(`${value.prefix}${String(n).padStart(value.width, '0')}`);
  }
  return names;
}

/** All names of a slot, in order. */
export function namesOf(values: readonly Value[] | undefined): string[] {
  return (values ?? []).flatMap(expandNames);
}

/** All whole numbers of a slot, in order, ranges expanded. */
export function numbersOf(values: readonly Value[] | undefined): number[] {
  const numbers: number[] = [];
  for (const value of values ?? []) {
    if (value.kind === 'whole') numbers.push(value.value);
    else if (value.kind === 'wholes') {
      for (let n = value.first; n <= value.last; n += value.step) numbers.push(n);
    }
  }
  return numbers;
}

/** The entries of a body that begin with a word, in order. */
export function entriesNamed(body: BoundBody | undefined, word: string): BoundEntry[] {
  return body?.entries.filter((entry) => entry.word === word) ?? [];
}

/** The first entry of a body that begins with a word. */
export function entryNamed(body: BoundBody | undefined, word: string): BoundEntry | undefined {
  return body?.entries.find((entry) => entry.word === word);
}

/** The holes that an entry fills, by name: `as tail length 64 m` fills `length`. */
export function holesFilled(entry: BoundEntry): Map<string, Value> {
  const holes = new Map<string, Value>();
  for (const [slot, values] of Object.entries(entry.slots)) {
    const name = /^<(.+)>$/u.exec(slot)?.[1];
    if (name !== undefined && values[0]) holes.set(name, values[0]);
  }
  return holes;
}

/** The entries around an offset, outermost first: the last is the one that it stands in. */
export function entriesAt(entries: readonly BoundEntry[], offset: number): BoundEntry[] {
  const entry = entries.find(({ span }) => span.start <= offset && offset <= span.end);
  return entry ? [entry, ...entriesAt(entry.body?.entries ?? [], offset)] : [];
}
