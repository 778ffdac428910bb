/** Ports of a fibre in words, where its number is not theirs: renumbered links, and maps that let light out elsewhere. */
import type { FibreResult, LinkResult } from '../evaluate/result.ts';

/** `A:01 to A:12`, `to A:12`; undefined where both ports bear the fibre's number, or hold more than it. */
export function portsInWords({ link, fibres }: LinkResult, fibre: number): string | undefined {
  const found = fibres.find((one) => one.fibre === fibre);
  if (!found) return undefined;
  const n = link.fibres.length;
  const from = link.from.length === n ? otherThan(found.fromPort, found) : undefined;
  const to = link.to.length === n ? otherThan(found.toPort, found) : undefined;
  if (from === undefined) return to && `to ${to}`;
  return found.toPort === undefined ? from : `${from} to ${short(found.toPort)}`;
}

function otherThan(port: string | undefined, { fibre }: FibreResult): string | undefined {
  const number = /\d+$/u.exec(port ?? '')?.[0];
  return port === undefined || Number(number) === fibre ? undefined : short(port);
}

/** Without the room and the rack before it: the panel is before one. */
const short = (port: string) => port.slice(port.lastIndexOf('/') + 1);
