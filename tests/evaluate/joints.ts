/** Joints of a path, one of each kind: a pair, a splice, a part and a splitter. */
import type { Joint } from '../../server/src/evaluate/stations.ts';
import { connector, declared, place, splice } from '../support/build.ts';

export const pairAt = (at?: string): Joint => ({
  kind: 'pair',
  name: 'PAIR',
  type: connector,
  at,
  place: place(),
});

export const weldAt = (at?: string, name = 'WELD'): Joint => ({
  kind: 'splice',
  name,
  type: splice,
  at,
  place: place(),
});

export const partAt = (loss: readonly object[], more: object = {}): Joint =>
  ({
    kind: 'part',
    name: 'PAD',
    type: { ...declared('PAD'), kind: 'component', shares: [], returnLoss: [], loss },
    place: place(),
    ...more,
  }) as Joint;

export const splitAt = (loss: readonly object[], out?: number): Joint =>
  ({
    kind: 'split',
    name: 'FOURTH',
    type: {
      ...declared('FOURTH'),
      kind: 'splitter',
      inputs: 1,
      outputs: 4,
      shares: [],
      returnLoss: [],
      loss,
    },
    out,
    place: place(),
  }) as Joint;
