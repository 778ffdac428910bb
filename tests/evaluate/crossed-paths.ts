/** Links and channels of pairs and arrays, with the places that their cords and segments cross. */
import type {
  ApplicationType,
  Carried,
  ConnectorType,
  LinkModel,
  PathElement,
} from '../../server/src/model/types.ts';
import { application, carried, connector, fibre, link, metres, place } from '../support/build.ts';

type Of<Kind> = Extract<PathElement, { kind: Kind }>;

export const lc: ConnectorType = { ...connector, name: 'LC', origin: 'library' };
export const mpo: ConnectorType = {
  ...connector,
  name: 'MPO-12',
  positions: 12,
  origin: 'library',
};

export const pair = (
  type: ConnectorType = lc,
  more: Partial<Of<'connector'>> = {},
): PathElement => ({
  kind: 'connector',
  name: type.name,
  type,
  place: place(),
  ...more,
});

/** A plug at the end of a link, with pins if it says so. */
export const plug = (type: ConnectorType = lc, pinned?: true): PathElement => ({
  kind: 'plug',
  name: type.name,
  type,
  ...(pinned && { pinned }),
  place: place(),
});

/** 100 m of glass, and which place each of its fibres comes out at. */
export const segment = (map?: readonly number[]): PathElement => ({
  kind: 'segment',
  length: metres(100),
  deliberate: false,
  fibre,
  fibreName: 'GLASS',
  ...(map && { map }),
  place: place(),
});

export const cord = (map?: Of<'cord'>['map'], more: Partial<Of<'cord'>> = {}): PathElement => ({
  kind: 'cord',
  length: metres(2),
  fibre,
  fibreName: 'GLASS',
  ...(map && { map }),
  place: place(),
  ...more,
});

/** A link as a channel takes it; one that is not declared, if there is none. */
export const crossing = (
  of: LinkModel | undefined,
  more: Partial<Of<'link'>> = {},
): PathElement => ({
  kind: 'link',
  name: of?.name ?? 'KQ-9',
  ...(of && { link: of }),
  turned: false,
  place: place(),
  ...more,
});

/** What needs so many fibres. */
export const service = (count: number, more: Partial<Carried> = {}): Carried => ({
  ...carried({ ...application([]), count } as ApplicationType),
  ...more,
});

/** A link of so many fibres, by its name. */
export const named = (
  name: string,
  fibres: number,
  path: readonly PathElement[],
  more: Partial<LinkModel> = {},
): LinkModel => ({
  ...link(path, {}, fibres),
  name,
  ...more,
});

/** A channel of so many fibres, and what it carries. */
export const channel = (
  fibres: number,
  path: readonly PathElement[],
  carries: readonly Carried[] = [],
  more: Partial<LinkModel> = {},
): LinkModel => ({
  ...link(path, { carries }, fibres),
  kind: 'channel',
  name: 'CH-1',
  ...more,
});

/** A link of two pairs and one segment. */
export const trunk = (fibres: number, map?: readonly number[]) =>
  named('TRUNK', fibres, [pair(), segment(map), pair()]);

/** Places 1 to n, the last first. */
export const reversed = (n: number) => Array.from({ length: n }, (_, at) => n - at);
