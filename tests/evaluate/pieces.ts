/** Pieces of a path that have figures of their own: a pair, a part, a splice, a splitter. */
import type { Piece } from '../../server/src/evaluate/path.ts';
import type { PartLoss } from '../../server/src/model/types.ts';
import { connector, declared, place, splice } from '../support/build.ts';

type Of<K extends Piece['kind']> = Extract<Piece, { kind: K }>;
const untold = { shares: [], returnLoss: [] };

export const pairAt = (at?: string): Of<'pair' | 'plug'> => ({
  kind: 'pair',
  name: 'PAIR',
  type: connector,
  at,
  place: place(),
});

/** A part with losses of its own; one that joins two kinds of connectors, if they are named. */
export const part = (loss: readonly PartLoss[], joins?: readonly [string, string]): Of<'part'> => ({
  kind: 'part',
  name: 'PAD',
  type: { ...declared('PAD'), ...untold, kind: 'component', loss },
  ...(joins && { joins }),
  place: place(),
});

export const weldAt = (at?: string, name = 'WELD'): Of<'splice'> => ({
  kind: 'splice',
  name,
  type: splice,
  at,
  place: place(),
});
export const weld = weldAt();

/** A splitter into four, with the output that light takes. */
export const split = (loss: readonly PartLoss[], out?: number): Of<'split'> => ({
  kind: 'split',
  name: 'FOURTH',
  type: { ...declared('FOURTH'), ...untold, kind: 'splitter', inputs: 1, outputs: 4, loss },
  out,
  place: place(),
});

/** What one of a figure counts, in dB. */
export const each = (found: { readonly each: number } | undefined) =>
  found ? found.each / 1e6 : undefined;
