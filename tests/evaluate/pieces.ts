/** Pieces of a path that have figures of their own: a part, a splice, a splitter. */
import type { Piece } from '../../server/src/evaluate/path.ts';
import type { PartLoss } from '../../server/src/model/types.ts';
import { place, splice } from '../support/build.ts';

type Part = Extract<Piece, { kind: 'part' }>;
type Splice = Extract<Piece, { kind: 'splice' }>;
type Split = Extract<Piece, { kind: 'split' }>;

const declared = {
  place: place(),
  namePlace: place(),
  origin: 'plan' as const,
  basis: [],
  notes: [],
  shares: [],
  returnLoss: [],
};

/** A part with losses of its own; one that joins two kinds of connectors, if they are named. */
export const part = (loss: readonly PartLoss[], joins?: readonly [string, string]): Part => ({
  kind: 'part',
  name: 'PAD',
  type: { ...declared, kind: 'component', name: 'PAD', loss },
  ...(joins && { joins }),
  place: place(),
});

export const weld: Splice = { kind: 'splice', name: 'WELD', type: splice, place: place() };

/** A splitter into four, with the output that light takes. */
export const split = (loss: readonly PartLoss[], out?: number): Split => ({
  kind: 'split',
  name: 'FOURTH',
  type: { ...declared, kind: 'splitter', name: 'FOURTH', inputs: 1, outputs: 4, loss },
  out,
  place: place(),
});

/** What one of a figure counts, in dB. */
export const each = (found: { readonly each: number } | undefined) =>
  found ? found.each / 1e6 : undefined;
