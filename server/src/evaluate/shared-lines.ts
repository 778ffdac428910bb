/** Channels that share the fibres of a link: each uses a wavelength of its own, and the port of a part that has it. */
import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkModel, PathElement } from '../model/types.ts';
import type { Doubt } from './result.ts';

type Crossing = Extract<PathElement, { kind: 'link' }>;

/** Two channels on one fibre of a link without two wavelengths to tell them apart; said at the first link that they share. */
export function* doubtsOfSharing(link: LinkModel, channels: readonly LinkModel[]): Iterable<Doubt> {
  const users = new Map<number, LinkModel[]>();
  for (const channel of channels) {
    const others = new Set<LinkModel>();
    for (const fibre of new Set(takenOf(channel, link.name))) {
      const there = users.get(fibre);
      for (const other of there ?? []) others.add(other);
      if (there) there.push(channel);
      else users.set(fibre, [channel]);
    }
    for (const other of others) {
      const apart =
        channel.wavelength !== undefined &&
        other.wavelength !== undefined &&
        channel.wavelength !== other.wavelength;
      if (apart) continue;
      const shared = firstShared(channel, other);
      if (shared?.crossing.name !== link.name) continue;
      const both = channel.wavelength !== undefined && other.wavelength !== undefined;
      yield {
        name: 'wavelength-shared',
        place: shared.crossing.place,
        related: [{ place: other.namePlace, message: `${other.name} takes them too` }],
        details: {
          channel: channel.name,
          other: other.name,
          link: link.name,
          fibre: shared.fibre,
          ...(both && channel.wavelength !== undefined
            ? { wavelength: toNanometres(channel.wavelength) }
            : { unsaid: channel.wavelength === undefined ? channel.name : other.name }),
        },
      };
    }
  }
}

/** Where the path of a channel first takes a fibre that another takes too. */
function firstShared(
  channel: LinkModel,
  other: LinkModel,
): { readonly crossing: Crossing; readonly fibre: number } | undefined {
  for (const crossing of crossingsOf(channel)) {
    const taken = new Set(takenOf(other, crossing.name));
    const fibre = fibresTaken(crossing).find((one) => taken.has(one));
    if (fibre !== undefined) return { crossing, fibre };
  }
  return undefined;
}

function crossingsOf({ path }: LinkModel): readonly Crossing[] {
  return path.filter((element) => element.kind === 'link');
}

function takenOf(channel: LinkModel, link: string): readonly number[] {
  return crossingsOf(channel)
    .filter(({ name }) => name === link)
    .flatMap(fibresTaken);
}

function fibresTaken({ fibres, link }: Crossing): readonly number[] {
  return fibres ?? link?.fibres ?? [];
}

/** A part that has no figure for the wavelength its channel uses; none is made of two others. */
export function* doubtsOfPorts(link: LinkModel): Iterable<Doubt> {
  const { wavelength } = link;
  if (link.kind !== 'channel' || wavelength === undefined) return;
  for (const element of link.path) {
    if (element.kind !== 'component' || !element.type || element.type.loss.length === 0) continue;
    const { loss } = element.type;
    if (loss.some((one) => one.wavelength === undefined || one.wavelength === wavelength)) continue;
    const has = [...new Set(loss.flatMap((one) => one.wavelength ?? []))];
    yield {
      name: 'component-figure-missing',
      place: element.place,
      details: {
        channel: link.name,
        component: element.name,
        ...(element.port !== undefined && { port: element.port }),
        wavelength: toNanometres(wavelength),
        has: has.map((one) => `${toNanometres(one)} nm`).join(', '),
      },
    };
  }
}
