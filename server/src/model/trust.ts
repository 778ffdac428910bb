/**
 * How far a figure can be trusted. A `basis` stands for the entries above it,
 * up to the `basis` before; entries that have none below them stand on the last
 * one. Several in a row stand together, and what one of them says is from
 * memory is from memory.
 */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Trust } from './types.ts';
import { nameOf } from './values.ts';

/** By entry; those that no `basis` with a word on trust stands for are left out. */
export function trustByEntry(entries: readonly BoundEntry[]): ReadonlyMap<BoundEntry, Trust> {
  if (!entries.some(({ word }) => word === W.basis)) return none;
  const trusts = new Map<BoundEntry, Trust>();
  let waiting: BoundEntry[] = [];
  let run: Trust | undefined;
  let inRun = false;
  const settle = () => {
    for (const entry of waiting) if (run) trusts.set(entry, run);
    waiting = [];
  };
  for (const entry of entries) {
    if (entry.word === W.basis) {
      run = lesserTrust(inRun ? run : undefined, nameOf(entry.slots.trust) as Trust | undefined);
      inRun = true;
    } else if (entry.word !== W.note) {
      if (inRun) settle();
      inRun = false;
      waiting.push(entry);
    }
  }
  settle();
  return trusts;
}

/** What is from memory in one of two is from memory in both together. */
export function lesserTrust(a: Trust | undefined, b: Trust | undefined): Trust | undefined {
  return a === 'recalled' || b === 'recalled' ? 'recalled' : (a ?? b);
}

const none: ReadonlyMap<BoundEntry, Trust> = new Map();
