/** Services over two pairs and 100 m of fibre, and the room they leave. */
import { expect } from 'vitest';
import { roomOf } from '../../server/src/evaluate/room.ts';
import type {
  ApplicationRow,
  ApplicationType,
  LinkModel,
  PathElement,
  Terms,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  db,
  evidence,
  link,
  mated,
  metres,
  nm,
  place,
  settings,
  setup,
  stretch,
} from '../support/build.ts';

export type Segment = Extract<PathElement, { kind: 'segment' }>;

const row = (more: Partial<ApplicationRow>): ApplicationRow => ({
  fibre: 'GLASS',
  place: place(),
  ...more,
});

export const service = (
  rows: readonly Partial<ApplicationRow>[],
  wavelengths: ApplicationType['wavelengths'] = [{ wavelength: nm(850) }],
): ApplicationType => ({ ...application([]), rows: rows.map(row), wavelengths });

/** The room of each service of a link that nothing was measured of. */
export const roomsOf = (model: LinkModel, channels: readonly LinkModel[] = []) =>
  roomOf({
    link: model,
    evidence: evidence(),
    setup: () => setup(),
    settings: settings(),
    asOf: 1_000_000,
    channels,
  });

/** Two pairs and 100 m, and what lies between. */
export const path = (...between: readonly PathElement[]) => [
  mated(),
  stretch(100),
  ...between,
  mated(),
];

/** The room of one service over two pairs and 100 m, with planned cords. */
export function room(
  rows: readonly Partial<ApplicationRow>[],
  {
    cords = [],
    along = path(),
    terms = {},
    wavelengths,
  }: {
    cords?: readonly number[];
    along?: readonly PathElement[];
    terms?: Partial<Terms>;
    wavelengths?: ApplicationType['wavelengths'];
  } = {},
) {
  const all = roomsOf(
    link(along, { carries: [carried(service(rows, wavelengths), cords)], ...terms }),
  );
  expect(all.length).toBeLessThan(2);
  return all[0];
}

/** A row that ends at a reach in m, a loss in dB, or both. */
export const limitedBy = (reach: number | undefined, loss: number | undefined) => ({
  ...(reach !== undefined && { reach: metres(reach) }),
  ...(loss !== undefined && { loss: db(loss) }),
});
